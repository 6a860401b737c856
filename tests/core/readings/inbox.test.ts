import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readTableFromCards } from '../../../src/core/domain/sources.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import {
  closeUpTo,
  drain,
  newInbox,
  newSegment,
  addColumn,
  addPack,
  pendingCount,
  type Inbox,
} from '../../../src/core/readings/inbox.ts';
import { codeOf, startCodeOf } from '../../../src/core/domain/channels.ts';
import { CLOCK_STEP_BIT } from '../../../src/core/readings/segment.ts';
import { column, NOON, placed } from '../../support/packs.ts';

const ALWAYS = { sinceMs: Number.NEGATIVE_INFINITY, untilMs: Number.POSITIVE_INFINITY };

/**
 * All that waits up to `toMs`, as 'time:code=value' with `!fault`, drained in pieces of `capacity`.
 */
function drained(inbox: Inbox, toMs = Number.POSITIVE_INFINITY, capacity = 7): string[] {
  const into = newSegment(capacity);
  const rows: string[] = [];
  do {
    drain(inbox, toMs, into);
    for (let i = 0; i < into.n; i++) {
      const value = into.fault[i]! & 3 ? '' : into.value[i]!;
      const fault = into.fault[i] ? `!${into.fault[i]}` : '';
      rows.push(`${into.timeMs[i]}:${into.channel[i]}=${value}${fault}`);
    }
  } while (into.n === capacity);
  return rows;
}

function give(inbox: Inbox, code: number, times: number[], values = times, faults?: number[]): number {
  const given = {
    times: Float64Array.from(times),
    values: Float64Array.from(values),
    ...(faults && { faults: Uint8Array.from(faults) }),
  };
  return addColumn(inbox, given, { code, ...ALWAYS }, false);
}

describe('drain', () => {
  test('orders by time, then by channel', () => {
    const inbox = newInbox();
    give(inbox, 3, [10, 20, 30]);
    give(inbox, 0, [10, 25, 30]);
    expect(drained(inbox)).toEqual(['10:0=10', '10:3=10', '20:3=20', '25:0=25', '30:0=30', '30:3=30']);
  });

  test('hands on up to and including the time asked for', () => {
    const inbox = newInbox();
    give(inbox, 0, [10, 20, 30]);
    expect(drained(inbox, 20)).toEqual(['10:0=10', '20:0=20']);
    expect(pendingCount(inbox)).toBe(1);
    expect(drained(inbox, 29)).toEqual([]);
    expect(drained(inbox, 30)).toEqual(['30:0=30']);
  });

  test('of one channel and time one reading counts, whichever came first', () => {
    for (const order of [
      [0, 1, 2],
      [2, 1, 0],
      [1, 2, 0],
    ]) {
      const inbox = newInbox();
      const packs: [number[], number[], number[]][] = [
        [[10], [5], [0]],
        [[10], [Number.NaN], [3]],
        [[10], [4], [0]],
      ];
      for (const at of order) give(inbox, 0, ...packs[at]!);
      expect(drained(inbox, Number.POSITIVE_INFINITY, 1)).toEqual(['10:0=4']);
    }
  });

  test('a fault without a number is handed on as such', () => {
    const inbox = newInbox();
    give(inbox, 3, [10, 20], [1, Number.NaN], [0, 2]);
    expect(drained(inbox)).toEqual(['10:3=1', '20:3=!2']);
  });
});

describe('offer says what is late', () => {
  test.each([
    ['nothing was handed on', undefined, [10, 20], Number.POSITIVE_INFINITY, ['10:0=10', '20:0=20']],
    ['all later', 5, [10, 20], Number.POSITIVE_INFINITY, ['10:0=10', '20:0=20']],
    ['some of it', 10, [20, 8, 10, 30], 8, ['20:0=20', '30:0=30']],
    ['all of it', 50, [20, 10], 10, []],
  ] as [string, number | undefined, number[], number, string[]][])('%s', (_, toMs, times, lateMs, rows) => {
    const inbox = newInbox();
    if (toMs !== undefined) drained(inbox, toMs);
    expect(give(inbox, 0, times)).toBe(lateMs);
    expect(drained(inbox)).toEqual(rows);
  });

  test('closeTo makes late what was not handed on', () => {
    const inbox = newInbox();
    give(inbox, 0, [10]);
    closeUpTo(inbox, 20);
    expect(give(inbox, 0, [15, 25])).toBe(15);
    expect(drained(inbox)).toEqual(['10:0=10', '25:0=25']);
  });
});

describe('offerPack', () => {
  const panel = {
    ...defaultCardForNode('north'),
    pumps: [{ id: 'p1', control: 'pressure-switch' as const }],
  };
  const cards = [
    {
      ...panel,
      reads: [
        { channel: 'current', node: 'panel', nodeChannel: 'p2/current', sinceMs: 0 },
        { channel: 'current', node: 'panel-b', nodeChannel: 'current', sinceMs: NOON + 1000 },
        { channel: 'pressure', node: 'pumphouse', nodeChannel: 'pressure', sinceMs: 0 },
      ],
    },
  ];
  const table = readTableFromCards(cards);
  const rowsOf = (notes: Parameters<typeof placed>[0]): string[] => {
    const inbox = newInbox();
    addPack(inbox, 'north', placed({ fromMs: NOON, values: [7, 8], ...notes }), table);
    return drained(inbox).map((row) => row.replace(`${NOON}`, 'noon').replace(`${NOON + 1000}`, 'noon+1'));
  };

  test.each([
    ['another channel of a panel', { node: 'panel', channel: 'p2/current' }, ['noon:0=7']],
    ['the node that replaced it, from then on', { node: 'panel-b', channel: 'current' }, ['noon+1:0=8']],
    ['a channel that nobody reads', { node: 'panel', channel: 'current' }, []],
    ['pressure from the pump house', { node: 'pumphouse', channel: 'pressure' }, ['noon:3=7', 'noon+1:3=8']],
    [
      'what the card leaves out, from the node of its name',
      { node: 'north', channel: 'voltage' },
      ['noon:4=7', 'noon+1:4=8'],
    ],
    [
      'a start record',
      { node: 'panel', channel: 'p2/current', kind: 'start' as const },
      [`noon:${startCodeOf(codeOf('current'))}=7`],
    ],
    [
      'pressure in a start record counts for nothing',
      { node: 'pumphouse', channel: 'pressure', kind: 'start' as const },
      [],
    ],
  ])('%s', (_, notes, rows) => {
    expect(rowsOf(notes)).toEqual(rows);
  });

  test('the first reading of a pack whose clock stepped is marked', () => {
    const inbox = newInbox();
    addPack(
      inbox,
      'north',
      { ...placed({ node: 'pumphouse', channel: 'pressure', fromMs: 5 }), clockStep: true },
      table,
    );
    expect(drained(inbox)).toEqual([`5:3=1!${CLOCK_STEP_BIT}`, '1005:3=2', '2005:3=3']);
  });

  test('what has no known time is used for nothing', () => {
    const inbox = newInbox();
    addPack(
      inbox,
      'north',
      { ...placed({ node: 'pumphouse', channel: 'pressure' }), timeUnknown: true },
      table,
    );
    expect(pendingCount(inbox)).toBe(0);
  });
});

const reading = fc.record({
  t: fc.integer({ min: 0, max: 60 }),
  code: fc.constantFrom(0, 3, 16),
  value: fc.integer({ min: 0, max: 2 }),
});

test('whatever the packing, the order and the doubles, the same stretches come out', () => {
  fc.assert(
    fc.property(
      fc.array(reading, { maxLength: 120 }),
      fc.array(fc.record({ from: fc.nat(), n: fc.integer({ min: 1, max: 15 }) }), { maxLength: 30 }),
      fc.infiniteStream(fc.nat()),
      fc.integer({ min: 1, max: 9 }),
      (readings, doubles, dice, capacity) => {
        // Each once in order of time, packed one by one: the plain way.
        const plain = newInbox();
        for (const { t, code, value } of readings) give(plain, code, [t], [value]);
        const expected = drained(plain, Number.POSITIVE_INFINITY, 1000);
        const best = new Map<string, number>();
        for (const { t, code, value } of readings) {
          best.set(`${t}:${code}`, Math.min(value, best.get(`${t}:${code}`) ?? 9));
        }
        expect(expected).toHaveLength(best.size);
        for (const row of expected) expect(`${best.get(row.split('=')[0]!)}`).toBe(row.split('=')[1]);

        const next = dice[Symbol.iterator]();
        const packs = [...readings.keys()].map((i) => [i]);
        for (const { from, n } of doubles)
          packs.push([...readings.keys()].slice(from % 120, (from % 120) + n));
        packs.sort(() => (next.next().value! % 2 === 0 ? 1 : -1));
        const other = newInbox();
        for (const members of packs) {
          for (const code of [0, 3, 16]) {
            const mine = members.map((i) => readings[i]!).filter((r) => r.code === code);
            give(
              other,
              code,
              mine.map((r) => r.t),
              mine.map((r) => r.value),
            );
          }
        }
        expect(drained(other, Number.POSITIVE_INFINITY, capacity)).toEqual(expected);
      },
    ),
    { seed: 8, numRuns: 300 },
  );
});

test('drained in any pieces of time, the same readings come out', () => {
  fc.assert(
    fc.property(
      fc.array(reading, { maxLength: 100 }),
      fc.array(fc.integer({ min: 0, max: 70 })),
      (readings, cuts) => {
        const [whole, cut] = [newInbox(), newInbox()];
        for (const { t, code, value } of readings) {
          give(whole, code, [t], [value]);
          give(cut, code, [t], [value]);
        }
        const pieces = cuts.sort((a, b) => a - b).flatMap((toMs) => drained(cut, toMs));
        expect([...pieces, ...drained(cut)]).toEqual(drained(whole));
      },
    ),
    { seed: 9, numRuns: 200 },
  );
});

test('packs newest first are held in few runs, and come out in order', () => {
  const inbox = newInbox();
  for (let at = 2000; at > 0; at--) {
    addColumn(inbox, column('current', at * 10, 1, [1, 2, 3]), { code: 0, ...ALWAYS }, false);
  }
  expect(inbox.queues.length).toBeLessThan(25);
  const rows = drained(inbox, Number.POSITIVE_INFINITY, 10_000);
  expect(rows).toHaveLength(6000);
  const times = rows.map((row) => Number(row.split(':')[0]));
  expect(times).toEqual([...times].sort((a, b) => a - b));
  expect(inbox.queues.length).toBe(1);
});
