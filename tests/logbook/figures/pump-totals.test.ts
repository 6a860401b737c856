import { expect, test } from 'vitest';
import type { DayEvent } from '../../../shared/api/events.ts';
import { pumpTotals } from '../../../src/logbook/figures/pump-totals.ts';

const day = (date: string, cycles?: number, pump?: string): DayEvent => ({
  event: 'day',
  well: 'a',
  date,
  ...(cycles !== undefined && { cycles, ranS: cycles * 90 }),
  ...(pump !== undefined && { pump }),
});

test('starts and hours since the pump was installed; days without a count are told', () => {
  const days = [day('2025-05-13', 99), day('2025-05-14', 10), day('2025-05-15'), day('2025-05-16', 20)];
  expect(pumpTotals(days, 'p1', '2025-05-14')).toEqual({
    since: '2025-05-14',
    installed: '2025-05-14',
    starts: 30,
    ranS: 2700,
    uncountedDays: 1,
  });
  expect(pumpTotals(days, 'p1', '2025')?.starts).toBe(129);
  expect(pumpTotals(days, 'p1', undefined)).not.toHaveProperty('installed');
});

test('each pump has its own, and none where nothing was counted', () => {
  const days = [day('2025-05-14', 10, 'p1'), day('2025-05-14', 4, 'p2')];
  expect(pumpTotals(days, 'p2', undefined)?.starts).toBe(4);
  expect(pumpTotals([day('2025-05-14')], 'p1', undefined)).toBeUndefined();
  expect(pumpTotals(days, 'p1', '2026')).toBeUndefined();
});
