/** Many cards as one table: what a row says, what is wrong with it, and the table back. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SECTIONS } from '../../shared/card/fields.ts';
import { flatten, unflatten } from '../../shared/card/flat-card.ts';
import { readCsv } from '../../src/logbook/csv.ts';
import { readCardTable, applyCells, writeCardTable } from '../../src/logbook/card-table.ts';

describe('readCardTable', () => {
  test('a row a well; empty cells say nothing', () => {
    const text =
      'well,pump.motor,switch,where.tank\r\nmill,3/4 hp,40/60,\r\nbarn,,-,"left, by the furnace"\r\n';
    expect(readCardTable(text)).toEqual({
      rows: [
        { line: 2, well: 'mill', cells: { 'pump.motor': '3/4 hp', 'switch.points': '40/60' } },
        { line: 3, well: 'barn', cells: { 'switch.points': '-', 'where.tank': 'left, by the furnace' } },
      ],
      bad: [],
    });
  });

  test.each<[string, string]>([
    ['', 'The table is empty: its first line must name the columns'],
    [
      'well;pump.motor\nmill;1 hp\n',
      'Line 1: columns must be separated by commas. Here they are separated by something else',
    ],
    ['well,Motor\n', 'Line 1: column 2 must be a field of the card, such as pump.motor: "Motor"'],
    ['well,__proto__\n', 'Line 1: column 2 must be a field of the card, such as pump.motor: "__proto__"'],
    ['well,owner,owner\n', 'Line 1: the column owner must be there once'],
    ['owner,firm\n', 'Line 1: one column must be called well'],
    ['\n\nwell,"owner"x\n', 'Line 3: cell 2 continues after its closing quote'],
  ])('%j cannot be read', (text, problem) => {
    expect(readCardTable(text)).toEqual({ problem });
  });

  test('whatever the text is, every row is taken or told', () => {
    const text = fc
      .array(fc.constantFrom('well', 'owner', 'a', ',', '"', '\n', '\r\n', '\uFEFF', '-', '\u0000'))
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.oneof(text, fc.string()), (any) => {
        const read = readCardTable(any);
        // Every row is taken or told.
        if ('rows' in read) expect(read.rows.length + read.bad.length).toBe(readCsv(any).length - 1);
        else expect(read.problem).not.toBe('');
      }),
    );
  });

  test('bad rows are told with their line and stop no other', () => {
    const text = 'well,owner\nmill,A\nMill,B\nbarn\n"x"y,C\nmill,D\n\nhill,"E\nE"\nyard,F\n';
    const read = readCardTable(text);
    if ('problem' in read) throw new Error(read.problem);
    expect(read.bad).toEqual([
      { line: 3, reason: 'well must be 1 to 40 of a-z, 0-9 and -: "Mill"' },
      { line: 4, reason: 'it has 1 cell, but the first line has 2' },
      { line: 5, reason: 'cell 1 continues after its closing quote' },
      { line: 6, reason: 'mill is in line 2 too' },
    ]);
    expect(read.rows.map(({ line, well }) => [line, well])).toEqual([
      [2, 'mill'],
      [8, 'hill'],
      [10, 'yard'],
    ]);
  });
});

describe('withSaid', () => {
  const card = { well: 'mill', owner: 'A', 'switch.cutIn': '40 psi', 'switch.cutOut': '60 psi' };
  test.each<[string, Record<string, string>, Record<string, string>]>([
    ['changes a field', { owner: 'B' }, { ...card, owner: 'B' }],
    [
      'takes one out',
      { owner: '-', firm: '-' },
      { well: 'mill', 'switch.cutIn': '40 psi', 'switch.cutOut': '60 psi' },
    ],
    [
      'means the switch’s name instead of its points',
      { 'switch.points': '30/50' },
      { well: 'mill', owner: 'A', 'switch.points': '30/50' },
    ],
    [
      'keeps both where both are said, for the reader to refuse',
      { 'switch.points': '30/50', 'switch.cutIn': '1 psi' },
      { ...card, 'switch.points': '30/50', 'switch.cutIn': '1 psi' },
    ],
  ])('%s', (_name, says, is) => expect(applyCells(card, says)).toEqual(is));

  test('and the points instead of the name', () => {
    expect(applyCells({ 'switch.points': '40/60' }, { 'switch.cutIn': '40 psi' })).toEqual({
      'switch.cutIn': '40 psi',
    });
  });
});

describe('writeCardTable', () => {
  test('has the columns that are filled, in the order of the card, and comes back', () => {
    const cards = [
      {
        well: 'mill',
        flat: {
          well: 'mill',
          'tank.volume': '44 gal',
          owner: '=1+1',
          firm: "-2+3+cmd|' /C x'!A0",
          'hole.staticLevel': '-3 ft',
        },
      },
      { well: 'barn', flat: { well: 'barn', 'pump.motor': '3/4 hp', owner: "'@A", firm: '- Larch' } },
    ];
    const text = writeCardTable(cards);
    expect(text.split('\r\n')[0]).toBe('\uFEFFwell,pump.motor,tank.volume,hole.staticLevel,owner,firm');
    // A spreadsheet takes none of them for a formula.
    expect(text).toContain(",'=1+1,");
    expect(text).toContain(",'-2+3+cmd");
    expect(text).toContain(',-3 ft,');
    const read = readCardTable(text);
    expect(
      'rows' in read && read.rows.map(({ well, cells }) => ({ well, flat: { well, ...cells } })),
    ).toEqual(cards);
  });
});

describe('a table goes out and comes in again as it was', () => {
  const there = (card: Record<string, unknown>): unknown => {
    const table = readCardTable(writeCardTable([{ well: 'mill', flat: flatten(card) }]));
    if (!('rows' in table) || table.bad.length > 0) throw new Error(JSON.stringify(table));
    return { ...unflatten(applyCells({}, table.rows[0]!.cells)), well: 'mill' };
  };

  test('every field of a card', () => {
    const fields = SECTIONS.flatMap((section) => section.fields);
    const flat = Object.fromEntries(
      fields
        .filter(({ key }) => key !== 'switch.cutIn' && key !== 'switch.cutOut')
        .map(({ key, example, choices }) => [
          key,
          typeof example === 'string'
            ? example
            : (example?.[0] ?? choices?.[0]?.[0] ?? `what is "${key}", and how`),
        ]),
    );
    const card = { ...unflatten(flat), well: 'mill' };
    expect(there(card)).toEqual(card);
  });

  test.each<[what: string, card: Record<string, unknown>]>([
    [
      'several pumps',
      {
        pumps: {
          p1: { control: 'float', pump: { motor: '1 hp', phase: 1, protector: { restart: '20 min' } } },
          p2: { pump: { motor: '2 hp', wires: 3 } },
        },
      },
    ],
    [
      'where the readings come from',
      { reads: [{ since: '2026-01-01T00:00:00Z', current: 'panel-a:p2/current' }] },
    ],
    ['lists whose lines hold what parts them', { treatment: ['softener; lamp', '[old] filter', 'plain'] }],
    ['texts with line ends, commas and quotes', { owner: 'Berg, "A."\nand sons', address: '6" pipe; left' }],
    [
      'what a spreadsheet would reckon with',
      { owner: '=1+1', firm: '-2+3', contact: "'@A", address: '+1 555 0100' },
    ],
    ['a dash that somebody wrote', { owner: '-', firm: "'-" }],
    ['two uses', { use: ['house', 'stock'] }],
    ['a switch by its points', { switch: { cutIn: '40 psi', cutOut: '60 psi', lowCutOff: '20 psi' } }],
  ])('%s', (_, card) => expect(there({ ...card, well: 'mill' })).toEqual({ ...card, well: 'mill' }));
});
