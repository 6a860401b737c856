import { describe, expect, test } from 'vitest';
import {
  frontierMs,
  nodeProgress,
  releaseMs,
  type NodeProgress,
} from '../../../src/core/readings/frontier.ts';
import { newNode, receivePack } from '../../../src/core/readings/node.ts';
import { NOON, pack } from '../../support/packs.ts';

const S = 1000;

/** [whole up to, heard at, speaks every], s from noon. */
function progress(...rows: [number, number, number][]): NodeProgress[] {
  return rows.map(([whole, heard, every]) => ({
    completeToMs: NOON + whole * S,
    lastHeardMs: NOON + heard * S,
    intervalMs: every * S,
  }));
}

describe('frontierMs at 100 s', () => {
  test.each([
    ['no node was heard', [], 100],
    ['as far as the one node has spoken', [[92, 93, 10]], 92],
    [
      'as far as the slowest has',
      [
        [92, 93, 10],
        [65, 66, 60],
      ],
      65,
    ],
    [
      'one past its turn by 30 s is waited for',
      [
        [92, 93, 10],
        [60, 60, 10],
      ],
      60,
    ],
    [
      'by more it is not',
      [
        [92, 93, 10],
        [58, 59, 10],
      ],
      92,
    ],
    [
      'a backlog is not waited for',
      [
        [92, 93, 10],
        [-4000, 99, 10],
      ],
      92,
    ],
    ['a clock ahead of ours does not lead past now', [[250, 99, 10]], 100],
    ['nobody speaks any more', [[10, 11, 10]], 100],
  ] as [string, [number, number, number][], number][])('%s', (_, rows, toS) => {
    expect((frontierMs(progress(...rows), NOON + 100 * S) - NOON) / S).toBe(toS);
  });
});

describe('voiceOf', () => {
  const send = (state: ReturnType<typeof newNode>, seqs: number[]): void => {
    for (const seq of seqs) {
      receivePack(state, pack({ boot: 1, seq, fromMs: NOON + seq * 10 * S }), NOON + seq * 10 * S + 3 * S);
    }
  };
  const wholeS = (state: ReturnType<typeof newNode>, atS: number): number =>
    (nodeProgress(state, NOON + atS * S).completeToMs - NOON) / S;

  test('in order it is whole up to its last reading, and its step is learnt', () => {
    const state = newNode('barn');
    send(state, [1, 2, 3, 4]);
    expect(wholeS(state, 45)).toBe(42);
    expect(nodeProgress(state, NOON + 45 * S)).toMatchObject({
      intervalMs: 10 * S,
      lastHeardMs: NOON + 43 * S,
    });
  });

  test('a pack missing in between is waited for, 30 s long', () => {
    const state = newNode('barn');
    send(state, [1, 2, 4]);
    expect([wholeS(state, 45), wholeS(state, 73), wholeS(state, 74)]).toEqual([22, 22, 42]);
  });

  test('until it comes', () => {
    const state = newNode('barn');
    send(state, [1, 2, 4, 3]);
    expect(wholeS(state, 45)).toBe(42);
  });
});

describe('releaseMs', () => {
  const heard = (...seqs: number[]): ReturnType<typeof newNode> => {
    const state = newNode('barn');
    for (const seq of seqs)
      receivePack(state, pack({ boot: 1, seq, fromMs: NOON + seq * 10 * S }), NOON + seq * 10 * S + 3 * S);
    return state;
  };
  /** The first whole second at which the frontier reaches the target, by asking at each. */
  const askedS = (state: ReturnType<typeof newNode>, targetS: number, fromS: number): number => {
    for (let s = Math.max(fromS, targetS); ; s++)
      if (frontierMs([nodeProgress(state, NOON + s * S)], NOON + s * S) >= NOON + targetS * S) return s;
  };

  test.each([
    ['in order', [1, 2, 3, 4], 60],
    ['far ahead', [1, 2, 3, 4], 200],
    ['what is whole holds nothing', [1, 2, 3, 4], 42],
    ['a pack is missing', [1, 2, 4], 42],
    ['a pack is missing, and later ones are not there either', [1, 2, 4], 60],
    ['never heard', [], 60],
  ])('%s: is when asking each second would find it', (_, seqs, targetS) => {
    const state = heard(...seqs);
    const dueMs = Math.max(releaseMs(state, NOON + targetS * S), NOON + Math.max(targetS, 43) * S);
    expect(Math.ceil((dueMs - NOON) / S)).toBe(askedS(state, targetS, 43));
  });
});
