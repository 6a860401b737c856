import { describe, expect, test } from 'vitest';
import { findColdSeason, type MeasuredDay } from '../../../src/logbook/due/cold-season.ts';
import { addDays, nextYearly } from '../../../src/logbook/due/dates.ts';

/** A year of days, warm but for those named. */
function year(cold: Record<string, number>, count = 365, first = '2025-06-01'): MeasuredDay[] {
  return Array.from({ length: count }, (_, at) => {
    const date = addDays(first, at);
    return { date, minC: cold[date] ?? 12 };
  });
}

describe('coldSeason', () => {
  test('begins with the first of two cold days, and all is to be ready a month before', () => {
    const days = year({ '2025-10-21': 3, '2025-10-25': 1, '2026-01-10': -8, '2026-01-11': -9 });
    expect(findColdSeason(days)).toEqual({
      is: 'seasonal',
      firstColdDate: '2025-10-21',
      prepareByDay: '09-21',
    });
  });

  test('one cold day alone is no season', () => {
    expect(findColdSeason(year({ '2025-08-02': 3 }))).toBeUndefined();
    const days = year({ '2025-08-02': 3, '2025-11-02': 3, '2025-11-03': 2 });
    expect(findColdSeason(days)).toMatchObject({ firstColdDate: '2025-11-02' });
  });

  test('readings that begin in winter do not make its beginning', () => {
    const winter = Object.fromEntries(Array.from({ length: 60 }, (_, at) => [addDays('2026-01-01', at), -2]));
    expect(findColdSeason(year(winter, 330, '2026-01-01'))).toBeUndefined();
    const both = { ...winter, '2026-11-20': 2, '2026-11-21': 2 };
    expect(findColdSeason(year(both, 330, '2026-01-01'))).toMatchObject({ firstColdDate: '2026-11-20' });
  });

  test('a year that never grew cold is said to be so, with its lowest', () => {
    expect(findColdSeason(year({ '2026-01-10': 6.5 }))).toEqual({ is: 'never', minC: 6.5 });
  });

  test('half a year says nothing', () => expect(findColdSeason(year({}, 180))).toBeUndefined());

  test('the day it gives is in every year', () => {
    const days = year({ '2024-03-30': 1, '2024-03-31': 1 }, 365, '2023-12-01');
    expect(findColdSeason(days)).toMatchObject({ prepareByDay: '02-28' });
  });
});

test('the next day of the year is today itself, or lies ahead', () => {
  expect(nextYearly('10-01', '2026-10-01')).toBe('2026-10-01');
  expect(nextYearly('10-01', '2026-10-02')).toBe('2027-10-01');
});
