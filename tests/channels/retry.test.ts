import { expect, test } from 'vitest';
import { MAX_TRIES, retryDelayMs } from '../../src/channels/retry.ts';

const S = 1000;
const H = 3600 * S;

test.each([
  [1, 15 * S],
  [2, 30 * S],
  [3, 60 * S],
  [8, 1920 * S],
  [9, H],
  [29, H],
])('waitBeforeRetry: after %i tries %i ms in the middle', (tries, wait) => {
  expect(retryDelayMs(tries, 0.5)).toBe(wait);
  expect(retryDelayMs(tries, 0)).toBe(wait * 0.8);
  expect(retryDelayMs(tries, 0.999_999)).toBeLessThanOrEqual(wait * 1.2);
});

test('waitBeforeRetry: gives up after about a day', () => {
  expect(retryDelayMs(MAX_TRIES, 0.5)).toBeUndefined();
  const all = Array.from({ length: MAX_TRIES - 1 }, (_, at) => retryDelayMs(at + 1, 0.5)!);
  const sum = all.reduce((a, b) => a + b, 0);
  expect(sum).toBeGreaterThan(20 * H);
  expect(sum).toBeLessThan(26 * H);
});
