import { describe, expect, test } from 'vitest';
import { addDays, daysBetween } from '../../../src/logbook/due/dates.ts';
import { proposedDate } from '../../../src/logbook/due/proposed-date.ts';

const FIRST = '2026-11-26';
const names = (count: number): string[] => Array.from({ length: count }, (_, at) => `well-${at + 1}`);
const daysOf = (count: number, today = FIRST): string[] =>
  names(count).map((well) => proposedDate({ well, firstDate: FIRST, today, wellCount: count }));
const weekday = (on: string): number => new Date(`${on}T00:00:00Z`).getUTCDay();
const mostOnOne = (days: readonly string[]): number =>
  Math.max(...[...new Set(days)].map((day) => days.filter((one) => one === day).length));

describe('proposedDay', () => {
  test.each([
    // A week after 26 November is Thursday the 3rd of December: the week from Monday the 7th.
    { wells: 1, from: '2026-12-07', to: '2026-12-11', most: 1 },
    { wells: 20, from: '2026-12-07', to: '2026-12-11', most: 9 },
    { wells: 200, from: '2026-12-07', to: '2027-03-26', most: 8 },
    { wells: 2_000, from: '2026-12-07', to: '2027-07-16', most: 25 },
  ])('$wells wells of one list lie on working days from $from to $to, at most $most a day', (row) => {
    const days = daysOf(row.wells).toSorted();
    expect(days[0]! >= row.from).toBe(true);
    expect(days.at(-1)! <= row.to).toBe(true);
    expect(days.every((on) => weekday(on) >= 1 && weekday(on) <= 5)).toBe(true);
    expect(mostOnOne(days)).toBeLessThanOrEqual(row.most);
  });

  test('two hundred use nearly all of the 80 working days', () => {
    expect(new Set(daysOf(200)).size).toBeGreaterThan(65);
  });

  test('stays where it is as time goes on, and one well more moves nothing', () => {
    expect(daysOf(200, '2026-12-05')).toEqual(daysOf(200));
    const more = names(200).map((well) =>
      proposedDate({ well, firstDate: FIRST, today: FIRST, wellCount: 201 }),
    );
    expect(more).toEqual(daysOf(200));
  });

  test('one that passed comes again on the same weekday, never before today', () => {
    const [on] = daysOf(1) as [string];
    for (const late of [1, 34, 35, 36, 400]) {
      const again = proposedDate({
        well: 'well-1',
        firstDate: FIRST,
        today: addDays(on, late),
        wellCount: 1,
      });
      expect(daysBetween(addDays(on, late), again)).toBeGreaterThanOrEqual(0);
      expect(daysBetween(addDays(on, late), again)).toBeLessThan(35);
      expect(weekday(again)).toBe(weekday(on));
    }
  });

  test('without a first day it is within five weeks, and the same tomorrow', () => {
    const of = (today: string): string => proposedDate({ well: 'mill', today, wellCount: 1 });
    expect(daysBetween('2026-11-26', of('2026-11-26'))).toBeLessThan(35);
    expect(of(of('2026-11-26'))).toBe(of('2026-11-26'));
  });
});
