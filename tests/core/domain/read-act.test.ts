/** Acts as recordings and pages write them. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ACT_KINDS } from '../../../src/core/domain/act.ts';
import { readAct } from '../../../src/core/domain/read-act.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';

const UNTIL = '2026-03-12T10:00:00Z';
const UNTIL_MS = Date.UTC(2026, 2, 12, 10);

/** One good example of each kind, and what it is read as. */
const GOOD = {
  'card-changed': [{ card: { well: 'a' } }, { card: defaultCardForNode('a') }],
  'visit-opened': [{ well: 'a' }, { well: 'a' }],
  'visit-closed': [{ well: 'a' }, { well: 'a', newBaseline: false }],
  pinned: [
    { well: 'a', amps: '7.9 A', cutIn: '276 kPa' },
    { well: 'a', pump: 'p1', amps: 7.9, cutInKpa: 276 },
  ],
  calibrated: [
    {
      node: 'a',
      channel: 'p2/current',
      points: [
        [0.1, 0],
        [7.9, 8.2],
      ],
    },
    {
      node: 'a',
      channel: 'p2/current',
      points: [
        [0.1, 0],
        [7.9, 8.2],
      ],
    },
  ],
  acknowledged: [
    { well: 'a', pump: 'p2', alarm: 'leak' },
    { well: 'a', pump: 'p2', alarm: 'leak' },
  ],
  shelved: [
    { well: 'a', alarm: 'leak', until: UNTIL },
    { well: 'a', alarm: 'leak', untilMs: UNTIL_MS },
  ],
  'out-of-service': [{ well: 'a' }, { well: 'a' }],
  'back-in-service': [{ well: 'a' }, { well: 'a' }],
  'laid-up': [{ well: 'a' }, { well: 'a' }],
  expected: [
    { well: 'a', text: 'guests', until: UNTIL },
    { well: 'a', text: 'guests', untilMs: UNTIL_MS },
  ],
  'server-away': [{ from: UNTIL }, { fromMs: UNTIL_MS }],
  tick: [{}, {}],
} satisfies Record<(typeof ACT_KINDS)[number], [object, object]>;

test('the examples are of every kind', () => {
  expect(Object.keys(GOOD)).toEqual([...ACT_KINDS]);
});

describe('readAct reads', () => {
  test.each(ACT_KINDS)('%s', (kind) => {
    const [json, act] = GOOD[kind];
    expect(readAct({ kind, ...json })).toEqual({ act: { kind, ...act } });
    expect(
      readAct(
        { kind, ...json, by: 'Ada', ...(kind !== 'expected' && { text: 'a remark' }) },
        { strict: true },
      ),
    ).toEqual({
      act: { kind, ...act },
    });
  });

  test('a new baseline where it is asked for', () => {
    expect(readAct({ kind: 'visit-closed', newBaseline: true, well: 'church-farm' })).toEqual({
      act: { kind: 'visit-closed', well: 'church-farm', newBaseline: true },
    });
  });

  test('laid up with an end', () => {
    expect(readAct({ kind: 'laid-up', well: 'a', until: UNTIL })).toEqual({
      act: { kind: 'laid-up', well: 'a', untilMs: UNTIL_MS },
    });
  });

  test('an act with keys of another tool, unless strict', () => {
    const json = { kind: 'visit-opened', well: 'a', note: 'x' };
    expect(readAct(json)).toEqual({ act: { kind: 'visit-opened', well: 'a' } });
    expect(readAct(json, { strict: true })).toEqual({
      problem: 'Cannot read act: note is unknown here; known names: kind, by, text, well: "x"',
    });
  });
});

describe('readAct refuses', () => {
  test.each<[string, unknown, string]>([
    ['no object', 'visit-opened', 'Cannot read act: (root) must be an object in braces: "visit-opened"'],
    ['no kind', {}, 'Cannot read act: kind must be given: nothing'],
    [
      'an unknown kind',
      { kind: 'start-pump', well: 'a' },
      `Cannot read act: kind must be one of ${ACT_KINDS.join(', ')}: "start-pump"`,
    ],
    [
      'a kind from the object’s own workings',
      { kind: 'constructor' },
      `Cannot read act: kind must be one of ${ACT_KINDS.join(', ')}: "constructor"`,
    ],
    ['no well', { kind: 'visit-opened' }, 'Cannot read act: well must be given: nothing'],
    [
      'a flag as text',
      { kind: 'visit-closed', well: 'a', newBaseline: 'yes' },
      'Cannot read act: newBaseline must be true or false: "yes"',
    ],
    [
      'nothing pinned',
      { kind: 'pinned', well: 'a' },
      'Cannot read act: amps must be given, or cutIn, or cutOut: nothing',
    ],
    [
      'pinned in the wrong unit',
      { kind: 'pinned', well: 'a', amps: '7.9 V' },
      'Cannot read act: amps must be a current in A: "7.9 V"',
    ],
    [
      'pinned the wrong way round',
      { kind: 'pinned', well: 'a', cutIn: '60 psi', cutOut: '40 psi' },
      'Cannot read act: cutIn must be below cutOut: "60 psi"',
    ],
    [
      'a pump that is none',
      { kind: 'pinned', well: 'a', pump: 'two', amps: '1 A' },
      'Cannot read act: pump must be a pump such as p1: "two"',
    ],
    [
      'an alarm that is none',
      { kind: 'acknowledged', well: 'a', alarm: 'fire' },
      'Cannot read act: alarm must be one of power-lost',
    ],
    [
      'shelved without an end',
      { kind: 'shelved', well: 'a', alarm: 'leak' },
      'Cannot read act: until must be given: nothing',
    ],
    [
      'an end that is no time',
      { kind: 'shelved', well: 'a', alarm: 'leak', until: 'Friday' },
      'Cannot read act: until must be a time such as "2026-03-12T10:00:00Z": "Friday"',
    ],
    [
      'expected without a reason',
      { kind: 'expected', well: 'a', until: UNTIL },
      'Cannot read act: text must be given: nothing',
    ],
    [
      'a calibration by one point',
      { kind: 'calibrated', node: 'a', channel: 'current', points: [[1, 2]] },
      'Cannot read act: points must be two pairs of numbers, [[read, true], [read, true]]: [[1,2]]',
    ],
    [
      'a calibration with text',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'current',
        points: [
          ['1', 2],
          [3, 4],
        ],
      },
      'Cannot read act: points must be two pairs of numbers, [[read, true], [read, true]]: [["1",2],[3,4]]',
    ],
    [
      'a calibration that is level',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'current',
        points: [
          [1, 2],
          [1, 4],
        ],
      },
      'Cannot read act: points must rise: two different readings, the higher one with the higher true value: [[1,2],[1,4]]',
    ],
    [
      'a calibration that falls',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'current',
        points: [
          [1, 4],
          [2, 3],
        ],
      },
      'Cannot read act: points must rise: two different readings, the higher one with the higher true value: [[1,4],[2,3]]',
    ],
    [
      'a calibration whose gain no sensor needs',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'current',
        points: [
          [0, 0],
          [5e-324, 1],
        ],
      },
      'Cannot read act: points must make a line with a gain from 0.01 to 100 (true = gain x read + offset): Infinity',
    ],
    [
      'a calibration with an offset beyond all values of its channel',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'p2/current',
        points: [
          [1, 5000],
          [2, 5001],
        ],
      },
      'Cannot read act: points must make a line with an offset from -1000 to 1000 (true = gain x read + offset): 4999',
    ],
    [
      'a calibration of no channel',
      {
        kind: 'calibrated',
        node: 'a',
        channel: 'amps',
        points: [
          [1, 1],
          [2, 2],
        ],
      },
      'Cannot read act: channel must be a channel of the node (such as current or p2/current): "amps"',
    ],
    [
      'a card with a fault, in the card’s own words',
      { kind: 'card-changed', card: { well: 'a', relief: '75' } },
      'Cannot read card: relief must be a pressure in kPa, psi or bar: "75"',
    ],
    ['no card', { kind: 'card-changed' }, 'Cannot read card: (root) must be an object in braces: nothing'],
  ])('%s', (_name, json, problem) => {
    const read = readAct(json);
    expect('problem' in read ? read.problem : read.act).toMatch(problem);
  });

  test('a pump that the card of the well has not', () => {
    const cardOf = defaultCardForNode;
    expect(readAct({ kind: 'pinned', well: 'a', pump: 'p2', amps: '1 A' }, { cardOf })).toEqual({
      problem: 'Cannot read act: pump must be a pump of the card of a, which has p1: "p2"',
    });
    expect(readAct({ kind: 'acknowledged', well: 'a', alarm: 'leak' }, { cardOf })).toHaveProperty('act');
  });
});

test('a calibration of a kept past is read though no reading can be corrected by it', () => {
  const json = {
    kind: 'calibrated',
    node: 'a',
    channel: 'current',
    points: [
      [0, 0],
      [5e-324, 1],
    ],
  };
  expect(readAct(json)).toHaveProperty('problem');
  expect(readAct(json, { past: true })).toEqual({ act: json });
});

test('readAct takes any JSON without a throw', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ACT_KINDS),
      fc.dictionary(
        fc.constantFrom('well', 'pump', 'alarm', 'until', 'points', 'card', 'from'),
        fc.jsonValue(),
      ),
      (kind, rest) => {
        const read = readAct({ ...rest, kind });
        expect('act' in read || read.problem.startsWith('Cannot read ')).toBe(true);
      },
    ),
    { seed: 6, numRuns: 2000 },
  );
});
