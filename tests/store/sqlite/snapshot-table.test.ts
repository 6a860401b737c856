/** Which engine states are kept as they age. */
import { expect, test } from 'vitest';
import { snapshotsToKeep } from '../../../src/store/sqlite/snapshot-table.ts';

const MINUTE = 60_000;
const DAY = 1440;
/** Minutes before the newest, which lies on a UTC midnight. */
const NEWEST = Date.UTC(2026, 2, 10);

function kept(agesMin: number[]): number[] {
  const times = agesMin.map((age) => NEWEST - age * MINUTE).sort((a, b) => a - b);
  return snapshotsToKeep(times).map((t) => (NEWEST - t) / MINUTE);
}

test.each([
  ['none', [], []],
  ['one, however old the day is', [0], [0]],
  ['all of the last hour', [60, 50, 30, 10, 0], [60, 50, 30, 10, 0]],
  ['the first of an hour', [120, 110, 70, 0], [120, 0]],
  ['the first of a day', [3 * DAY, 3 * DAY - 60, 2 * DAY + 10, 0], [3 * DAY, 0]],
  ['none older than eight days', [9 * DAY, 8 * DAY + 1, 8 * DAY, 0], [8 * DAY, 0]],
])('%s', (_, ages, wanted) => {
  expect(kept(ages)).toEqual(wanted);
});

test('thinned again and again, there is one every two hours of a day and every two days of eight', () => {
  let times: number[] = [];
  for (let t = 0; t <= 9 * DAY; t += 10) {
    times.push(t * MINUTE);
    if (t % 70 === 0) times = snapshotsToKeep(times);
  }
  times = snapshotsToKeep(times);
  const ages = times.map((t) => 9 * DAY - t / MINUTE);
  expect(ages.length).toBeLessThanOrEqual(7 + 24 + 9);
  for (const [i, age] of ages.entries()) {
    const gap = age - (ages[i + 1] ?? 0);
    const most = age <= 60 ? 10 : age <= DAY ? 120 : 2 * DAY;
    expect([age, gap <= most]).toEqual([age, true]);
  }
  expect(ages[0]).toBeGreaterThan(7 * DAY);
});
