/** Comma-separated values, written and read back. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCsv, writeCsv } from '../../src/logbook/csv.ts';

describe('readCsv', () => {
  test.each<[string, string, string[][]]>([
    [
      'two rows',
      'a,b\r\n1,2\r\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a last line without an end',
      'a,b\n1,2',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    ['a byte order mark', '\uFEFFa\n1\n', [['a'], ['1']]],
    ['a mark before a quote', '\uFEFF"a",b\n', [['a', 'b']]],
    ['commas, quotes and line ends in quotes', '"a,""b""\r\nc",d\n', [['a,"b"\r\nc', 'd']]],
    ['a quote within a cell', '6" steel,1-1/4" poly\n', [['6" steel', '1-1/4" poly']]],
    ['empty cells', ',,\n', [['', '', '']]],
    ['empty lines are no rows', 'a\n\n\r\nb\n', [['a'], ['b']]],
    ['an empty quoted cell', 'a,""\n', [['a', '']]],
    ['nothing', '', []],
  ])('%s', (_name, text, cells) => {
    expect(readCsv(text).map((row) => row.cells)).toEqual(cells);
    expect(readCsv(text).some(({ problem }) => problem !== undefined)).toBe(false);
  });

  test.each<[string, string, [line: number, problem: string | undefined][]]>([
    [
      'a line that lies in a cell counts',
      'a\n"b\nc"\nd\n',
      [
        [1, undefined],
        [2, undefined],
        [4, undefined],
      ],
    ],
    [
      'text after a quote spoils its own row alone',
      'a\n"b"c,d\ne\n',
      [
        [1, undefined],
        [2, 'cell 1 continues after its closing quote'],
        [3, undefined],
      ],
    ],
    [
      'a quote that is never closed',
      'a\nb,"c\nd\n',
      [
        [1, undefined],
        [2, 'a quote is opened and never closed'],
      ],
    ],
  ])('%s', (_name, text, reported) => {
    expect(readCsv(text).map(({ line, problem }) => [line, problem])).toEqual(reported);
  });
});

describe('writeCsv', () => {
  const cell = fc.stringMatching(/^[a-z0-9 ,"\r\n\t;'=+@.-]{0,12}$/);
  const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 });

  test('comes back as it was', () => {
    fc.assert(
      fc.property(rows, (written) => {
        expect(readCsv(writeCsv(written)).map(({ cells }) => cells)).toEqual(written);
      }),
    );
  });

  test('is read by spreadsheets, and runs nothing in them', () => {
    expect(
      writeCsv([
        ['name', 'amps'],
        ['=1+1', undefined],
        ['a, "b"', 7.9],
        ['Köln', -1],
      ]),
    ).toBe('\ufeffname,amps\r\n\'=1+1,\r\n"a, ""b""",7.9\r\nKöln,-1\r\n');
  });

  test.each([
    ['=1+1', "'=1+1"],
    ['+1 555 0100', "'+1 555 0100"],
    ['-2+3', "'-2+3"],
    ['@A', "'@A"],
    ['\t=1', "'\t=1"],
    ['\r=1', '"\'\r=1"'],
    ["'=1", "''=1"],
    ['-3', '-3'],
    ['-3 ft', '-3 ft'],
    ['-', '-'],
    ["'twas", "'twas"],
  ])('%j is written %s', (text, written) => {
    expect(writeCsv([[text, 'x']])).toBe(`\ufeff${written},x\r\n`);
  });
});
