import { expect, test } from 'vitest';
import { upperMedian } from '../../../src/core/cycles/upper-median.ts';

test.each([
  [[3, 1, 2], 2],
  [[4, 1, 2, 3], 3],
  [[7], 7],
  [[], 0],
])('upperMedian of %j is %d', (values, middle) => {
  expect(upperMedian(values)).toBe(middle);
});
