/**
 * `kept` never claims a pack that neither came nor was lost, and in the end claims every pack that
 * there was.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ackPayload } from '../../../src/core/readings/ack.ts';
import {
  newNode,
  recordRefused,
  receiveHello,
  receivePack,
  type NodeState,
} from '../../../src/core/readings/node.ts';
import { hello, NOON, pack } from '../../support/packs.ts';

function send(state: NodeState, boot: number, seq: number, more: { first?: number } = {}): void {
  const fromMs = NOON + boot * 3_600_000 + seq * 10_000;
  receivePack(state, pack({ boot, seq, fromMs, ...more }), NOON + 30 * 3_600_000);
}

/** Rows of 'what came' -> what kept says. `!` refused. */
function keptAfter(text: string): string {
  const state = newNode('barn');
  for (const word of text.split(' ').filter(Boolean)) {
    const parts = /^(\d+):(\d+)(!?)(?:<(\d+))?$/.exec(word)!;
    const [boot, seq] = [Number(parts[1]), Number(parts[2])];
    if (parts[3]) recordRefused(state, boot, seq, NOON);
    else send(state, boot, seq, parts[4] === undefined ? {} : { first: Number(parts[4]) });
  }
  return JSON.stringify(ackPayload(state) ?? null);
}

describe('keptPayload', () => {
  test.each([
    ['', 'null'],
    ['7:1', '{"boot":7,"seq":1}'],
    ['7:1 7:2 7:3', '{"boot":7,"seq":3}'],
    ['7:3 7:1 7:2', '{"boot":7,"seq":3}'],
    ['7:1 7:4 7:5', '{"boot":7,"seq":1,"also":[[4,5]]}'],
    ['7:5', '{"boot":7,"seq":0,"also":[[5,5]]}'],
    ['7:5<5', '{"boot":7,"seq":5}'],
    ['7:1 7:2! 7:3', '{"boot":7,"seq":3}'],
    ['7:1! 7:2', '{"boot":7,"seq":2}'],
    ['6:1 6:2 7:1', '{"boot":7,"seq":1,"others":[{"boot":6,"seq":2}]}'],
    ['7:1 6:1', '{"boot":7,"seq":1,"others":[{"boot":6,"seq":1}]}'],
    ['6:1 6:9 7:1', '{"boot":7,"seq":1,"others":[{"boot":6,"seq":1}]}'],
  ])('after %s', (came, said) => {
    expect(keptAfter(came)).toBe(said);
  });

  test('a hello alone names its boot', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 7 }), false, NOON);
    expect(ackPayload(state)).toEqual({ boot: 7, seq: 0 });
  });

  test('what lies below and between the held ranges and never came is lost; an earlier boot that is not named is gone', () => {
    const state = newNode('barn');
    for (const seq of [1, 3, 9]) send(state, 5, seq);
    for (const seq of [2, 8]) send(state, 6, seq);
    const held = [
      { boot: 6, from: 5, to: 6 },
      { boot: 6, from: 8, to: 8 },
    ];
    const notes = receiveHello(state, hello({ boot: 7, held }), false, NOON + 40 * 3_600_000);
    // Of boot 5: 2, 4 to 8. Of boot 6: 1, 3, 4, 7.
    expect(notes).toContainEqual({ event: 'lost', packs: 10 });
    expect(ackPayload(state)).toEqual({
      boot: 7,
      seq: 0,
      others: [
        { boot: 6, seq: 4 },
        { boot: 5, seq: 9 },
      ],
    });
  });

  test('a retained copy gives nothing up: it may be older than packs on their way', () => {
    const state = newNode('barn');
    send(state, 6, 2);
    receiveHello(state, hello({ boot: 7, held: [] }), true, NOON);
    expect(ackPayload(state)).toEqual({ boot: 6, seq: 0, also: [[2, 2]], others: [{ boot: 7, seq: 0 }] });
  });

  test('what was given up and comes all the same is taken', () => {
    const state = newNode('barn');
    send(state, 7, 5, { first: 5 });
    expect(receivePack(state, pack({ boot: 7, seq: 3 }), NOON).is).toBe('placed');
    expect(receivePack(state, pack({ boot: 7, seq: 3 }), NOON).is).toBe('duplicate');
  });
});

const sending = fc.record({
  /** Packs of each boot. */
  boots: fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 14 }),
  /** Which pack of those still held is sent next, and whether it arrives. */
  picks: fc.array(fc.record({ at: fc.nat(), arrives: fc.boolean(), drops: fc.nat(60) }), { maxLength: 200 }),
});

test('kept, against a node that sends in any order, doubles, drops what is full and resends what is not kept', () => {
  fc.assert(
    fc.property(sending, ({ boots, picks }) => {
      const state = newNode('barn');
      const made = boots.flatMap((n, boot) =>
        Array.from({ length: n }, (_, i) => ({ boot: boot + 1, seq: i + 1 })),
      );
      const id = (p: { boot: number; seq: number }): string => `${p.boot}:${p.seq}`;
      const settled = new Set<string>();
      let held = made;
      const claimed = (p: { boot: number; seq: number }): boolean => {
        const kept = ackPayload(state);
        if (!kept) return false;
        if (kept.boot === p.boot) {
          return p.seq <= kept.seq || (kept.also ?? []).some(([from, to]) => p.seq >= from && p.seq <= to);
        }
        return (kept.others ?? []).some((other) => other.boot === p.boot && p.seq <= other.seq);
      };
      const checkClaims = (): void => {
        for (const p of made) if (claimed(p)) expect(settled).toContain(id(p));
      };
      const firstOf = (boot: number): number =>
        Math.min(...held.filter((p) => p.boot === boot).map((p) => p.seq));
      const deliver = (p: { boot: number; seq: number }): void => {
        const first = firstOf(p.boot);
        for (const q of made) if (q.boot === p.boot && q.seq < first) settled.add(id(q));
        settled.add(id(p));
        send(state, p.boot, p.seq, { first });
      };
      for (const { at, arrives, drops } of picks) {
        if (held.length === 0) break;
        if (drops === 0) held = held.slice(1);
        else if (arrives) deliver(held[at % held.length]!);
        if (at % 20 === 0) {
          checkClaims();
          held = held.filter((p) => !claimed(p));
        }
      }
      checkClaims();
      // Faults off: the node sends all that it holds, oldest first, and drops what kept passes.
      for (let round = 0; round < 20 && held.length > 0; round++) {
        for (const p of held) deliver(p);
        checkClaims();
        held = held.filter((p) => !claimed(p));
      }
      expect(held).toEqual([]);
    }),
    { seed: 21, numRuns: 60 },
  );
});
