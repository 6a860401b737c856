import { describe, expect, test } from 'vitest';
import { coldSeason, type MeasuredDay } from '../../src/book/cold-season.ts';
import { addDays, nextOn } from '../../src/book/days.ts';

/** A year of days, warm but for those named. */
function year(cold: Record<string, number>, count = 365, first = '2025-06-01'): MeasuredDay[] {
  return Array.from({ length: count }, (_, at) => {
    const on = addDays(first, at);
    return { on, lowC: cold[on] ?? 12 };
  });
}

describe('coldSeason', () => {
  test('begins with the first of two cold days, and all is to be ready a month before', () => {
    const days = year({ '2025-10-21': 3, '2025-10-25': 1, '2026-01-10': -8, '2026-01-11': -9 });
    expect(coldSeason(days)).toEqual({ is: 'from', coldOn: '2025-10-21', readyBy: '09-21' });
  });

  test('one cold day alone is no season', () => {
    expect(coldSeason(year({ '2025-08-02': 3 }))).toBeUndefined();
    const days = year({ '2025-08-02': 3, '2025-11-02': 3, '2025-11-03': 2 });
    expect(coldSeason(days)).toMatchObject({ coldOn: '2025-11-02' });
  });

  test('readings that begin in winter do not make its beginning', () => {
    const winter = Object.fromEntries(Array.from({ length: 60 }, (_, at) => [addDays('2026-01-01', at), -2]));
    expect(coldSeason(year(winter, 330, '2026-01-01'))).toBeUndefined();
    const both = { ...winter, '2026-11-20': 2, '2026-11-21': 2 };
    expect(coldSeason(year(both, 330, '2026-01-01'))).toMatchObject({ coldOn: '2026-11-20' });
  });

  test('a year that never grew cold is said to be so, with its lowest', () => {
    expect(coldSeason(year({ '2026-01-10': 6.5 }))).toEqual({ is: 'never', lowestC: 6.5 });
  });

  test('half a year says nothing', () => expect(coldSeason(year({}, 180))).toBeUndefined());

  test('the day it gives is in every year', () => {
    const days = year({ '2024-03-30': 1, '2024-03-31': 1 }, 365, '2023-12-01');
    expect(coldSeason(days)).toMatchObject({ readyBy: '02-28' });
  });
});

test('the next day of the year is today itself, or lies ahead', () => {
  expect(nextOn('10-01', '2026-10-01')).toBe('2026-10-01');
  expect(nextOn('10-01', '2026-10-02')).toBe('2027-10-01');
});
