/**
 * Readings in any order come out ordered, each time once or, for storage, each different reading
 * once.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  appendColumns,
  sliceColumns,
  isStrictlyIncreasing,
  newColumns,
  sortReadings,
  lowerBound,
} from '../../../src/store/series/columns.ts';
import type { Series } from '../../../src/store/store.ts';

type Reading = [t: number, value: number, fault: number];

function series(list: readonly Reading[]): Series {
  const columns = newColumns(list.length);
  for (const [t, value, fault] of list) {
    columns.timeMs[columns.n] = t;
    columns.value[columns.n] = fault === 0 ? value : Number.NaN;
    columns.fault[columns.n] = fault;
    columns.n += 1;
  }
  return columns;
}

const listed = (it: Series): Reading[] =>
  Array.from({ length: it.n }, (_, i) => [it.timeMs[i]!, it.fault[i] === 0 ? it.value[i]! : 0, it.fault[i]!]);

const reading: fc.Arbitrary<Reading> = fc
  .tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: -2, max: 3 }), fc.constantFrom(0, 0, 0, 1, 3))
  .map(([t, value, fault]) => [t, fault === 0 ? value : 0, fault]);

const byPlace = (a: Reading, b: Reading): number =>
  a[0] - b[0] || Number(a[2] !== 0) - Number(b[2] !== 0) || a[2] - b[2] || a[1] - b[1];

test('ordered equals sorting, with doubles once', () => {
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 80 }), (list) => {
      const sorted = list.toSorted(byPlace);
      const distinct = sorted.filter((it, i) => i === 0 || byPlace(it, sorted[i - 1]!) !== 0);
      expect(listed(sortReadings(series(list), true))).toEqual(distinct);
      const once = distinct.filter((it, i) => i === 0 || it[0] !== distinct[i - 1]![0]);
      expect(listed(sortReadings(series(list), false))).toEqual(once);
    }),
    { seed: 21, numRuns: 1000 },
  );
});

test('what is in order is handed back as it is', () => {
  const it = series([
    [1, 5, 0],
    [2, 4, 0],
  ]);
  expect(isStrictlyIncreasing(it)).toBe(true);
  expect(sortReadings(it, false)).toBe(it);
});

test.each([
  [0, 0],
  [10, 0],
  [11, 1],
  [30, 2],
  [31, 3],
])('the place of %d is %d', (t, wanted) => {
  const it = series([
    [10, 1, 0],
    [20, 2, 0],
    [30, 3, 0],
  ]);
  expect(lowerBound(it, t)).toBe(wanted);
});

test('cut and append keep time, value and fault together', () => {
  const it = series([
    [1, 1, 0],
    [2, 0, 3],
    [3, 3, 0],
  ]);
  const to = newColumns(4);
  appendColumns(to, it, 1, 3);
  appendColumns(to, it, 0, 1);
  expect(listed(to)).toEqual([
    [2, 0, 3],
    [3, 3, 0],
    [1, 1, 0],
  ]);
  expect(listed(sliceColumns(to, 1, 2))).toEqual([[3, 3, 0]]);
});
