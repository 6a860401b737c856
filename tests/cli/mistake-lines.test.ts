import { expect, test } from 'vitest';
import { mistakeLines, type RowMistake } from '../../src/cli/mistake-lines.ts';

const WORDS = { one: (at: number) => `line ${at}`, many: (count: number) => `${count} lines` };

const equal = (from: number, count: number): RowMistake[] =>
  Array.from({ length: count }, (_, at) => ({
    line: from + at,
    well: `w${from + at}`,
    reason: 'timeZone must be given: nothing',
  }));

test.each<[string, RowMistake[], string[]]>([
  ['no mistake', [], []],
  ['a row without a well', [{ line: 2, reason: 'it has 1 cell' }], ['line 2: it has 1 cell']],
  [
    'three equal ones have their wells',
    equal(2, 3),
    [2, 3, 4].map((at) => `line ${at}, w${at}: timeZone must be given: nothing`),
  ],
  ['four are one line', equal(2, 4), ['4 lines (2, 3, 4, 5): timeZone must be given: nothing']],
  [
    'of thousands the first are named',
    equal(2, 3_000),
    ['3000 lines (2, 3, 4, 5, 6 …): timeZone must be given: nothing'],
  ],
  [
    'in the order of the table, whatever came first',
    [{ line: 9, reason: 'b' }, ...equal(3, 4), { line: 5, reason: 'a' }, { line: 2, reason: 'b' }],
    ['line 2: b', '4 lines (3, 4, 5, 6): timeZone must be given: nothing', 'line 5: a', 'line 9: b'],
  ],
])('%s', (_name, mistakes, lines) => {
  expect(mistakeLines(mistakes, WORDS)).toEqual(lines);
});
