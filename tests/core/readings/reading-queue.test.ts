import { describe, expect, test } from 'vitest';
import {
  dropHead,
  headChunk,
  headMs,
  takesPrecedence,
  mergeQueues,
  newQueue,
  push,
  type ReadingQueue,
} from '../../../src/core/readings/reading-queue.ts';

function runOf(rows: [number, number, number?][]): ReadingQueue {
  const run = newQueue(3);
  for (const [t, value, fault = 0] of rows) push(run, t, value, fault);
  return run;
}

function emptied(run: ReadingQueue): [number, number, number][] {
  const rows: [number, number, number][] = [];
  while (run.n > 0) {
    const chunk = headChunk(run);
    rows.push([headMs(run), chunk.value[chunk.from]!, chunk.fault[chunk.from]!]);
    dropHead(run);
  }
  return rows;
}

test('push and dropHead: first in, first out, over many chunks', () => {
  const run = newQueue(0);
  const rows = Array.from({ length: 20_000 }, (_, i): [number, number, number] => [i, i * 2, i % 4]);
  for (const [t, value, fault] of rows) push(run, t, value, fault);
  expect(run.chunks.length).toBeGreaterThan(3);
  expect([run.n, run.lastMs]).toEqual([20_000, 19_999]);
  expect(emptied(run)).toEqual(rows);
  expect([run.n, run.chunks.length, headMs(run)]).toEqual([0, 1, Number.POSITIVE_INFINITY]);
  // What is left of a backlog is small again.
  expect(run.chunks[0]!.time.length).toBeLessThan(100);
});

test('mergeRuns: in order of time, twins once', () => {
  const a = runOf([
    [1, 10],
    [3, 30],
    [5, 50],
  ]);
  const b = runOf([
    [2, 20],
    [3, 29],
    [5, 50],
    [9, 90],
  ]);
  expect(emptied(mergeQueues(a, b))).toEqual([
    [1, 10, 0],
    [2, 20, 0],
    [3, 29, 0],
    [5, 50, 0],
    [9, 90, 0],
  ]);
});

describe('isBetter', () => {
  test.each([
    ['a number before a fault', [5, 0], [Number.NaN, 1], true],
    ['a fault after a number', [Number.NaN, 1], [5, 0], false],
    ['the smaller number', [4, 0], [5, 0], true],
    ['the same number is no better', [5, 0], [5, 0], false],
    ['the smaller fault', [Number.NaN, 1], [Number.NaN, 3], true],
    ['the mark of a step decides nothing', [5, 4], [5, 0], false],
  ] as [string, [number, number], [number, number], boolean][])('%s', (_, one, other, better) => {
    expect(takesPrecedence(one[0], one[1], other[0], other[1])).toBe(better);
  });
});
