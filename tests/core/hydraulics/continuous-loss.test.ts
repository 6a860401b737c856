import { describe, expect, test } from 'vitest';
import { continuousLoss, newHourlyLows, recordBlock } from '../../../src/core/hydraulics/continuous-loss.ts';

const HOUR_MS = 3_600_000;

/** One number an hour, L/h: the quietest block of it, with a draw in the other one. */
function after(lows: (number | undefined)[], waitH = 0) {
  const continuous = newHourlyLows();
  for (const [hour, low] of lows.entries()) {
    if (low === undefined) continue;
    recordBlock(continuous, hour * HOUR_MS + 600_000, low + 70);
    recordBlock(continuous, hour * HOUR_MS + 1_200_000, low);
  }
  return continuousLoss(continuous, (lows.length + waitH) * HOUR_MS - 1);
}

const hours = (n: number, lPerH: number | undefined): (number | undefined)[] => Array(n).fill(lPerH);

describe('ceaselessLoss', () => {
  test.each<[string, (number | undefined)[], { hours: number; lPerH: number } | undefined]>([
    ['a leak of 150 L/h since 20 h', [...hours(10, 0), ...hours(20, 150)], { hours: 20, lPerH: 150 }],
    ['a still house', hours(24, 0), undefined],
    [
      'a leak through hours of heavy use',
      [...hours(8, 100), ...hours(3, 220), ...hours(9, 100)],
      { hours: 20, lPerH: 100 },
    ],
    [
      'hours without a quiet block',
      [...hours(9, 100), ...hours(3, undefined), ...hours(8, 100)],
      { hours: 20, lPerH: 100 },
    ],
    ['a trickle at night that ended this morning', [...hours(14, 40), 0], undefined],
    [
      'a still hour at noon: it counts from there',
      [...hours(10, 90), 1, ...hours(5, 90)],
      { hours: 5, lPerH: 90 },
    ],
    ['two hours are none yet', hours(2, 100), undefined],
  ])('%s', (_, lows, want) => {
    const loss = after(lows);
    expect(loss?.hours).toBe(want?.hours);
    if (want) expect(Math.abs(loss!.lPerH / want.lPerH - 1)).toBeLessThan(0.05);
  });

  test('says nothing once nothing quiet was heard for hours', () => {
    expect(after(hours(20, 100), 3)).toBeDefined();
    expect(after(hours(20, 100), 6)).toBeUndefined();
  });

  test('forgets what is older than thirty hours', () => {
    const continuous = newHourlyLows();
    for (let hour = 0; hour < 200; hour++) recordBlock(continuous, hour * HOUR_MS, 50);
    expect(continuous.hours.length).toBeLessThanOrEqual(30);
  });
});
