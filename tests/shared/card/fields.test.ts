/**
 * The fields that people fill in, against the keys that the reader knows; flat cards there and
 * back; what differs.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cardChanges } from '../../../shared/card/changes.ts';
import { findConflicts, cardDifferences, mergeCards } from '../../../shared/card/differences.ts';
import { fieldOf, isCardKey, keyFor, fieldLabel, SECTIONS } from '../../../shared/card/fields.ts';
import { flatten, isList, joinLines, splitLines, unflatten } from '../../../shared/card/flat-card.ts';
import { CARD_KEYS, cardField } from '../../../shared/card/card-fields.ts';
import { cardIssues } from '../../../src/core/domain/read-card.ts';

describe('the fields of a card', () => {
  test('are all of the table, and no other', () => {
    const named = SECTIONS.flatMap(({ fields }) => fields.map(({ key }) => key));
    expect(named.toSorted()).toEqual(CARD_KEYS.filter((key) => key !== 'well').toSorted());
  });

  test('each have words for every choice', () => {
    const fields = SECTIONS.flatMap((section) => section.fields);
    const reported = fields.map(({ key, choices }) => [key, choices?.map(([value]) => value).toSorted()]);
    const options = fields.map(({ key }) => {
      const field = cardField(key);
      return [key, field && 'options' in field ? field.options.map(String).toSorted() : undefined];
    });
    expect(reported).toEqual(options);
  });

  test('each hold an example that the reader takes, in both systems of units', () => {
    for (const system of [0, 1] as const) {
      const flat = Object.fromEntries(
        SECTIONS.flatMap(({ fields }) => fields)
          .filter(({ key }) => key !== 'switch.cutIn' && key !== 'switch.cutOut')
          .flatMap(({ key, example, choices }) => {
            const text = typeof example === 'string' ? example : (example?.[system] ?? choices?.[0]?.[0]);
            return text === undefined ? [] : [[key, text.split(', or')[0]!]];
          }),
      );
      expect(cardIssues({ ...unflatten(flat), well: 'a' })).toEqual([]);
    }
  });

  test('are called so on their own', () => {
    expect(fieldLabel('pumps.p2.pump.motor')).toBe('Pump 2: motor power');
    expect(fieldLabel('electrical.wires.switch')).toBe('Electrical: wires at the switch');
    expect(fieldLabel('reads.p2/current')).toBe('Readings: p2/current');
    expect(keyFor(fieldOf('pump.motor')!, 'p2')).toBe('pumps.p2.pump.motor');
    expect(keyFor(fieldOf('tank.volume')!, 'p2')).toBe('tank.volume');
  });

  test.each([
    ['pump.motor', true],
    ['pumps.p2.pump.motor', true],
    ['pumps.p2.control', true],
    ['pumps.p2.tank.volume', false],
    ['reads.p2/current', true],
    ['well', true],
    ['pump', false],
    ['motor', false],
    ['__proto__.x', false],
  ])('%s is a key: %s', (key, is) => expect(isCardKey(key)).toBe(is));
});

const CARD = {
  well: 'a',
  use: ['house', 'stock'],
  pumps: { p1: { control: 'float', pump: { phase: 3, wires: 3, protector: { restart: '20 min' } } } },
  switch: { cutIn: '40 psi' },
  hole: { checkValves: ['at the pump', '160 ft'] },
  electrical: { wires: { switch: ['L1 black', 'L2; red'] } },
  treatment: [' [odd] '],
  falseAlarmsPerYear: 0.1,
  reads: [{ since: '2026-01-01T00:00:00Z', current: 'b:current' }],
};

describe('flatten and unflatten', () => {
  test('a card there and back', () => {
    expect(flatten(CARD)).toMatchObject({
      use: 'house; stock',
      'pumps.p1.pump.phase': '3',
      'hole.checkValves': 'at the pump; 160 ft',
      'electrical.wires.switch': '["L1 black","L2; red"]',
    });
    expect(unflatten(flatten(CARD))).toEqual(CARD);
  });

  test('a switch by its name has its points', () => {
    expect(unflatten(flatten({ switch: '40/60' }))).toEqual({ switch: { points: '40/60' } });
  });

  test.each([
    ['what is no number stays as it was written', { 'pump.phase': 'three' }, { pump: { phase: 'three' } }],
    ['what is empty is nothing', { owner: ' ', 'tank.volume': '' }, {}],
    ['uses parted by commas', { use: 'house, stock' }, { use: ['house', 'stock'] }],
    ['lines parted by line ends', { treatment: 'softener\n\nlamp' }, { treatment: ['softener', 'lamp'] }],
    ['a list that is no JSON', { treatment: '[softener' }, { treatment: ['[softener'] }],
  ])('%s', (_name, flat, card) => expect(unflatten(flat)).toEqual(card));

  test('no key reaches out of the card', () => {
    unflatten({ '__proto__.polluted': 'x', 'constructor.prototype.polluted': 'x' });
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('whatever somebody hands over, nothing is thrown', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (json) => {
        expect(() => cardIssues(unflatten(flatten(json)))).not.toThrow();
      }),
    );
    const deep: unknown = JSON.parse(`${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`);
    expect(flatten(deep as Record<string, unknown>)).toEqual({ 'a.a.a.a.a.a': '{…}' });
  });

  test('any lines come back', () => {
    const line = fc.string({ minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 4 }), (lines) => {
        expect(splitLines(joinLines(lines))).toEqual(lines);
      }),
    );
    expect(isList('electrical.wires.drive')).toBe(true);
  });
});

describe('what differs', () => {
  const opened = { 'pump.motor': '1 hp', owner: 'R. Alder', 'tank.volume': '44 gal' };
  const theirs = { ...opened, 'pump.motor': '3/4 hp', 'hole.depth': '320 ft' };
  const yours = { 'pump.motor': '1-1/2 hp', owner: 'I. Alder', 'tank.volume': '44 gal' };

  test('between two cards, in the form’s order', () => {
    expect(cardDifferences(opened, theirs)).toEqual([
      { key: 'pump.motor', before: '1 hp', after: '3/4 hp' },
      { key: 'hole.depth', after: '320 ft' },
    ]);
  });

  test('of what two made of one', () => {
    expect(findConflicts(opened, theirs, yours)).toEqual([
      { key: 'pump.motor', theirs: '3/4 hp', yours: '1-1/2 hp', changedBy: 'both' },
      { key: 'hole.depth', theirs: '320 ft', changedBy: 'them' },
      { key: 'owner', theirs: 'R. Alder', yours: 'I. Alder', changedBy: 'you' },
    ]);
  });

  test('and what was chosen of it, a field taken out too', () => {
    expect(mergeCards(theirs, yours, new Set(['owner', 'hole.depth']))).toEqual({
      'pump.motor': '3/4 hp',
      owner: 'I. Alder',
      'tank.volume': '44 gal',
    });
  });
});

test('changesOf tells who changed what, newest first, and leaves out what changed nothing', () => {
  const act = (id: string, card: object, by?: string) => ({
    id,
    atMs: Number(id),
    kind: 'card-changed',
    body: { kind: 'card-changed', card: { well: 'a', ...card } },
    ...(by !== undefined && { by }),
  });
  const acts = [
    act('1', { switch: '40/60' }, 'Ines'),
    { id: '2', atMs: 2, kind: 'visit-opened', body: { kind: 'visit-opened', well: 'a' } },
    act('3', { switch: { points: '40/60' } }, 'Tom'),
    act('4', { switch: '30/50', owner: 'R. Alder' }),
  ];
  expect(cardChanges(acts)).toEqual([
    {
      id: '4',
      atMs: 4,
      first: false,
      changes: [
        { key: 'switch.points', before: '40/60', after: '30/50' },
        { key: 'owner', after: 'R. Alder' },
      ],
    },
    { id: '1', atMs: 1, by: 'Ines', first: true, changes: [{ key: 'switch.points', after: '40/60' }] },
  ]);
});
