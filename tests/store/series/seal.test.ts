/** When tails are sealed, where pieces are cut, and which blocks are merged together. */
import { describe, expect, test } from 'vitest';
import type { BlockInfo } from '../../../src/store/series/block-table.ts';
import { MAX_SPAN_MS } from '../../../src/store/series/block-table.ts';
import { newColumns } from '../../../src/store/series/columns.ts';
import {
  BLOCK_READINGS,
  SEAL_AFTER_MS,
  SEAL_READINGS,
  mergeGroups,
  shouldMerge,
  shouldSeal,
  splitReadings,
} from '../../../src/store/series/seal.ts';
import type { SeriesState } from '../../../src/store/series/tails.ts';

function state(n: number, sinceMs: number): SeriesState {
  const tail = { ...newColumns(0), n, firstRow: 1, lastRow: 1, sinceMs };
  return { id: 0, node: 'barn', channel: 'current', sealedRow: 0, freshBlocks: 0, freshReadings: 0, tail };
}

test.each([
  [1, 0, SEAL_AFTER_MS - 1, false],
  [1, 0, SEAL_AFTER_MS, true],
  [SEAL_READINGS - 1, 0, 1, false],
  [SEAL_READINGS, 0, 1, true],
])('%d readings since %d are sealed at %d: %s', (n, sinceMs, nowMs, wanted) => {
  expect(shouldSeal(state(n, sinceMs), nowMs)).toBe(wanted);
});

test('a series without tail or fresh blocks has nothing to do', () => {
  const { tail: _, ...rest } = state(0, 0);
  expect(shouldSeal(rest, Number.MAX_SAFE_INTEGER)).toBe(false);
  expect(shouldMerge(rest)).toBe(false);
  expect(shouldMerge({ ...rest, freshBlocks: 1000 })).toBe(true);
  expect(shouldMerge({ ...rest, freshReadings: BLOCK_READINGS })).toBe(true);
});

describe('pieces', () => {
  const cut = (times: number[], holeMs: number): number[] => {
    const columns = { ...newColumns(times.length), n: times.length, timeMs: Float64Array.from(times) };
    return splitReadings(columns, holeMs).map(({ n }) => n);
  };
  const even = (n: number): number[] => Array.from({ length: n }, (_, i) => i * 1000);

  test.each([
    ['none', [], 5000, []],
    ['one', [0], 5000, [1]],
    ['no hole', [0, 1000, 2000], 5000, [3]],
    ['a hole', [0, 1000, 7000, 8000, 9000], 5000, [2, 3]],
    ['a hole at its limit', [0, 5000], 5000, [2]],
    ['longer than a block may span', [0, MAX_SPAN_MS, MAX_SPAN_MS + 1], Number.POSITIVE_INFINITY, [2, 1]],
  ])('with %s', (_, times, holeMs, wanted) => {
    expect(cut(times, holeMs)).toEqual(wanted);
  });

  test('of too many readings are about equal', () => {
    expect(cut(even(BLOCK_READINGS), 5000)).toEqual([BLOCK_READINGS]);
    expect(cut(even(BLOCK_READINGS + 1), 5000)).toEqual([BLOCK_READINGS / 2 + 1, BLOCK_READINGS / 2]);
  });

  test('keep readings of one time together', () => {
    const times = even(BLOCK_READINGS + 1);
    times[BLOCK_READINGS / 2 + 1] = times[BLOCK_READINGS / 2]!;
    expect(cut(times, 5000)).toEqual([BLOCK_READINGS / 2 + 2, BLOCK_READINGS / 2 - 1]);
  });
});

describe('merging', () => {
  /** `'1:0-10x500'`: level, from, to, readings. */
  function places(text: string): BlockInfo[] {
    return text.split(' ').map((word, i) => {
      const [level = 0, fromMs = 0, toMs = 0, n = 0] = word.split(/[:\-x]/).map(Number);
      return { id: i + 1, level, fromMs, toMs, n };
    });
  }
  const full = BLOCK_READINGS;
  test.each([
    ['nothing fresh', `1:0-10x100 1:11-20x100`, ''],
    ['fresh ones beside each other', '0:0-10x100 0:11-20x100', '1+2'],
    ['with the short one before', '1:0-10x100 0:11-20x100', '1+2'],
    ['not with a full one before', `1:0-10x${full} 0:11-20x100`, '2'],
    ['with a full one that it overlaps', `1:0-10x${full} 0:10-20x100`, '1+2'],
    ['only where it lies', `1:0-10x${full} 0:5-6x10 1:11-20x${full} 1:21-30x${full} 0:31-40x5`, '1+2 5'],
    ['across an old long one', `1:0-100x${full} 1:50-60x5 0:70-80x5`, '1+2+3'],
    ['not over the longest span', `0:0-10x1 0:${MAX_SPAN_MS + 1}-${MAX_SPAN_MS + 2}x1`, '1 2'],
  ])('%s', (_, blocks, wanted) => {
    const groups = mergeGroups(places(blocks)).map((group) => group.map(({ id }) => id).join('+'));
    expect(groups.join(' ')).toBe(wanted);
  });
});
