import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ackPayload } from '../../../src/core/readings/ack.ts';
import {
  applyStoredPack,
  excuseServerOutage,
  newNode,
  recordRefused,
  receiveHello,
  receivePack,
  receivePresence,
  drainNews,
  type NodeState,
  type Receipt,
} from '../../../src/core/readings/node.ts';
import type { PlacedPack } from '../../../src/core/readings/placed-pack.ts';
import type { Presence } from '../../../src/core/decode/messages.ts';
import { hello, NOON, pack } from '../../support/packs.ts';

const S = 1000;
const MIN = 60 * S;

describe('receivePack', () => {
  test('the same pack again is a duplicate, whatever came between', () => {
    const state = newNode('barn');
    const came = [1, 2, 1, 3, 2].map((seq) => {
      const fromMs = NOON + seq * 10 * S;
      return receivePack(state, pack({ boot: 4, seq, fromMs }), NOON + MIN).is;
    });
    expect(came).toEqual(['placed', 'placed', 'duplicate', 'placed', 'duplicate']);
    expect(state.counts).toMatchObject({ placed: 3, duplicates: 2 });
  });

  test('without boot and seq a pack is taken as it comes', () => {
    const state = newNode('barn');
    expect(receivePack(state, pack({}), NOON + 5 * S).is).toBe('placed');
    expect(receivePack(state, pack({}), NOON + 5 * S).is).toBe('placed');
    expect(ackPayload(state)).toBeUndefined();
  });

  test('a placed pack keeps what it came with', () => {
    const receipt = receivePack(
      newNode('barn'),
      pack({ boot: 4, seq: 9, first: 8, kind: 'start' }),
      NOON + 5 * S,
    );
    expect(receipt).toMatchObject({
      is: 'placed',
      placed: { node: 'barn', kind: 'start', boot: 4, seq: 9, first: 8, arrivalMs: NOON + 5 * S },
      events: [
        { event: 'new-boot', boot: 4 },
        { event: 'lost', packs: 7 },
      ],
    });
  });
});

describe('two boxes under one name', () => {
  const at = (s: number): number => NOON + s * S;

  test('the same boot and seq with other bytes: both kept, said once, and that it is over', () => {
    const state = newNode('barn');
    const rows: [number, number, number][] = [
      [1, 100, 10],
      [1, 200, 11],
      [1, 200, 12],
      [2, 101, 20],
      [2, 201, 21],
    ];
    const came = rows.map(
      ([seq, digest, s]) => receivePack(state, pack({ boot: 1, seq, digest, fromMs: at(s - 5) }), at(s)).is,
    );
    expect(came).toEqual(['placed', 'conflict', 'conflict', 'placed', 'conflict']);
    const news = drainNews(state, at(2 * 3600));
    expect(news.filter((n) => n.node.news.startsWith('conflict'))).toEqual([
      {
        atMs: at(11),
        node: { news: 'conflict', node: 'barn', sinceMs: at(11), evidence: { boot: 1, seq: 1 } },
      },
      { atMs: at(21 + 3600), node: { news: 'conflict-over', node: 'barn' } },
    ]);
  });

  test('readings of two boots that overlap by more than a minute', () => {
    const state = newNode('barn');
    const news: string[] = [];
    for (let i = 1; i <= 20; i++) {
      receivePack(state, pack({ boot: 1, seq: i, fromMs: at(10 * i) }), at(10 * i + 5));
      receivePack(state, pack({ boot: 2, seq: i, fromMs: at(10 * i + 3) }), at(10 * i + 8));
      for (const { atMs, node } of drainNews(state, at(10 * i + 8)))
        news.push(`${(atMs - NOON) / S} ${node.news}`);
    }
    // From 13 s to 72 s are 59 s, to 82 s more than a minute.
    expect(news).toEqual(['85 conflict']);
  });

  test.each([
    [
      'a reboot',
      [
        [1, 0],
        [1, 10],
        [2, 20],
        [2, 30],
      ],
    ],
    [
      'a reboot whose old packs come afterwards',
      [
        [2, 100],
        [2, 110],
        [1, 0],
        [1, 10],
        [2, 120],
      ],
    ],
    [
      'a clock that was 50 s ahead before the reboot',
      [
        [1, 0],
        [1, 60],
        [1, 110],
        [2, 60],
        [2, 70],
      ],
    ],
  ] as [string, [number, number][]][])('%s is none', (_, rows) => {
    const state = newNode('barn');
    const seqs = new Map<number, number>();
    for (const [boot, s] of rows) {
      const seq = (seqs.get(boot) ?? 0) + 1;
      seqs.set(boot, seq);
      receivePack(state, pack({ boot, seq, fromMs: at(s) }), at(300));
    }
    expect(drainNews(state, at(300))).toEqual([]);
  });
});

test('noteRefused: nothing more is wanted of it, and a duplicate of a refused pack is no conflict', () => {
  const state = newNode('barn');
  receivePack(state, pack({ boot: 4, seq: 1 }), NOON + 5 * S);
  recordRefused(state, 4, 2, NOON + 5 * S);
  recordRefused(state, 4, 2, NOON + 6 * S);
  expect(ackPayload(state)).toEqual({ boot: 4, seq: 2 });
  // A newer release may read what an older one refused.
  expect(receivePack(state, pack({ boot: 4, seq: 2, fromMs: NOON + 3 * S }), NOON + 7 * S).is).toBe('placed');
});

test('node state stays small at its worst: many boots, each with every other pack missing', () => {
  const state = newNode('a-name-of-forty-characters-is-the-longes');
  const big = 2 ** 53 - 30;
  for (let boot = 0; boot < 20; boot++) {
    const bootMs = NOON + boot * 86_400_000;
    receiveHello(state, hello({ boot: big + boot, upMs: 2 * S }), false, bootMs);
    for (let seq = 1; seq <= 500; seq += 2) {
      const upMs = 2 * S + seq * 10 * S;
      const notes = {
        boot: big + boot,
        seq,
        clock: 'up' as const,
        upMs,
        fromMs: -2 * S,
        digest: seq * 2_654_435_761,
      };
      receivePack(state, pack(notes), bootMs + seq * 10 * S + 500.123);
    }
  }
  drainNews(state, NOON);
  expect(JSON.stringify(state).length).toBeLessThan(8 * 1024);
  expect(state.boots.length).toBe(8);
});

test('a boot that was forgotten is still known to have been live, and when it began', () => {
  const state = newNode('barn');
  for (let boot = 1; boot <= 12; boot++) {
    receiveHello(state, hello({ boot, upMs: 0 }), false, NOON + boot * MIN);
  }
  const late = pack({ boot: 2, seq: 1, clock: 'up', upMs: 20 * S, fromMs: -2 * S });
  const receipt = receivePack(state, late, NOON + 60 * MIN);
  expect(receipt.is === 'placed' && receipt.placed.columns[0]!.times.at(-1)).toBe(NOON + 2 * MIN + 20 * S);
});

type Input =
  | {
      is: 'pack';
      boot: number;
      seq: number;
      delayS: number;
      other: boolean;
      clock: 'utc' | 'up';
      first: boolean;
    }
  | { is: 'hello'; boot: number; retained: boolean; held: boolean }
  | { is: 'presence'; presence: Presence; retained: boolean }
  | { is: 'refused'; boot: number; seq: number }
  | { is: 'away' };

const boot = fc.integer({ min: 1, max: 3 });
const seq = fc.integer({ min: 1, max: 25 });
const input: fc.Arbitrary<Input> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      is: fc.constant('pack' as const),
      boot,
      seq,
      delayS: fc.constantFrom(1, 1, 30, 900, -400),
      other: fc.boolean(),
      clock: fc.constantFrom('utc' as const, 'up' as const),
      first: fc.boolean(),
    }),
  },
  fc.record({ is: fc.constant('hello' as const), boot, retained: fc.boolean(), held: fc.boolean() }),
  fc.record({
    is: fc.constant('presence' as const),
    presence: fc.constantFrom<Presence>('here', 'gone', 'no-power'),
    retained: fc.boolean(),
  }),
  fc.record({ is: fc.constant('refused' as const), boot, seq }),
  fc.record({ is: fc.constant('away' as const) }),
);

function restored(json: string): NodeState {
  const state: NodeState = JSON.parse(json);
  return state;
}

function givePack(state: NodeState, given: Extract<Input, { is: 'pack' }>, atMs: number): Receipt {
  const upMs = given.seq * 10 * S;
  const notes = {
    boot: given.boot,
    seq: given.seq,
    ...(given.other && given.seq % 5 === 0 && { digest: 1 }),
    ...(given.first && { first: Math.max(1, given.seq - 4) }),
    ...(given.clock === 'up'
      ? { clock: 'up' as const, upMs, fromMs: -2 * S }
      : { fromMs: atMs - given.delayS * S }),
  };
  return receivePack(state, pack(notes), atMs);
}

/** Gives one input to a node; what it answers, as data. */
function give(state: NodeState, given: Input, atMs: number): unknown {
  switch (given.is) {
    case 'pack':
      return givePack(state, given, atMs);
    case 'hello': {
      const held = given.held ? [{ boot: given.boot, from: 5, to: 9 }] : undefined;
      return receiveHello(
        state,
        hello({ boot: given.boot, upMs: 3 * S, ...(held && { held }) }),
        given.retained,
        atMs,
      );
    }
    case 'presence':
      return receivePresence(state, given.presence, given.retained, atMs);
    case 'refused':
      return recordRefused(state, given.boot, given.seq, atMs);
    case 'away':
      return excuseServerOutage(state, atMs - 20 * MIN, atMs);
    default:
      return given satisfies never;
  }
}

const timed = fc.array(fc.record({ given: input, afterS: fc.constantFrom(1, 10, 60, 700, 5000) }), {
  maxLength: 60,
});

test('saved and restored as JSON between any two inputs, a node goes on the same', () => {
  fc.assert(
    fc.property(timed, (inputs) => {
      const whole = newNode('barn');
      let cut = newNode('barn');
      let atMs = NOON;
      for (const { given, afterS } of inputs) {
        atMs += afterS * S;
        const answers = [give(whole, given, atMs), drainNews(whole, atMs), ackPayload(whole)];
        cut = restored(JSON.stringify(cut));
        expect([give(cut, given, atMs), drainNews(cut, atMs), ackPayload(cut)]).toEqual(answers);
      }
      expect(JSON.stringify(cut)).toBe(JSON.stringify(whole));
    }),
    { seed: 3, numRuns: 150 },
  );
});

test('applyKept: the packs kept since a save make the same state again', () => {
  const packsOnly = fc.array(
    fc.record({
      boot,
      seq,
      delayS: fc.constantFrom(1, 30, 900, -400),
      afterS: fc.constantFrom(1, 10, 700),
      up: fc.boolean(),
    }),
    { maxLength: 50 },
  );
  fc.assert(
    fc.property(packsOnly, (rows) => {
      const state = newNode('barn');
      receiveHello(state, hello({ boot: 1, upMs: 3 * S }), false, NOON);
      const saved = JSON.stringify(state);
      const kept: PlacedPack[] = [];
      let atMs = NOON;
      for (const row of rows) {
        atMs += row.afterS * S;
        const given = {
          is: 'pack' as const,
          ...row,
          other: false,
          first: false,
          clock: row.up ? ('up' as const) : ('utc' as const),
        };
        const receipt = givePack(state, given, atMs);
        if (receipt.is !== 'duplicate') kept.push(receipt.placed);
      }
      const again = restored(saved);
      for (const placed of kept) applyStoredPack(again, placed);
      // Duplicates leave nothing in the journal but the time of the boot's last touch and of being
      // heard.
      const essence = ({ boots, latestMs, conflict, counts }: NodeState): unknown => ({
        boots: boots
          .map((boot) => ({ ...boot, lastActivityMs: 0, digests: [], retainedHello: 0 }))
          .sort((a, b) => a.boot - b.boot),
        latestMs,
        conflict,
        placed: counts.placed,
        overruled: counts.overruled,
      });
      expect(essence(again)).toEqual(essence(state));
      expect(again.news).toEqual([]);
    }),
    { seed: 4, numRuns: 200 },
  );
});
