/** Water by month and year, with its gaps. */
import { describe, expect, test } from 'vitest';
import type { DayEvent } from '../../../shared/api/events.ts';
import { waterTotals } from '../../../src/logbook/figures/water-totals.ts';

const day = (date: string, usedL?: number, pump?: string): DayEvent => ({
  event: 'day',
  well: 'a',
  date,
  ...(usedL !== undefined && { usedL }),
  ...(pump !== undefined && { pump }),
});

describe('waterTotals', () => {
  test('sums months and years, and counts days without a total as missing', () => {
    const days = [day('2025-12-30', 100), day('2025-12-31'), day('2026-01-01', 50), day('2026-01-03', 0)];
    const [newest, before] = waterTotals({ days, today: '2026-01-05', allowedL: 200 });
    expect(newest).toMatchObject({ period: '2026', usedL: 50, days: 4, missingDays: 2, allowedRatio: 0.25 });
    expect(before).toEqual({
      period: '2025',
      usedL: 100,
      days: 2,
      missingDays: 1,
      months: [{ period: '2025-12', usedL: 100, days: 2, missingDays: 1 }],
      allowedRatio: 0.5,
    });
  });

  test('today is not over and does not count', () => {
    const [year] = waterTotals({ days: [day('2026-01-01', 10), day('2026-01-02', 99)], today: '2026-01-02' });
    expect(year).toMatchObject({ usedL: 10, days: 1 });
    expect(year).not.toHaveProperty('allowedRatio');
  });

  test('of several pumps the whole well counts, else their sum', () => {
    const days = [
      day('2026-01-01', 30, 'p1'),
      day('2026-01-01', 20, 'p2'),
      day('2026-01-01', 55),
      day('2026-01-02', 30, 'p1'),
      day('2026-01-02', 20, 'p2'),
    ];
    expect(waterTotals({ days, today: '2026-01-03' })[0]?.usedL).toBe(105);
  });

  test('nothing measured is no total', () => {
    expect(waterTotals({ days: [], today: '2026-01-03' })).toEqual([]);
    expect(waterTotals({ days: [day('2026-01-01')], today: '2026-01-03' })).toEqual([]);
  });
});
