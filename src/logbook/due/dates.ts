/** Dates of the calendar as ISO text, `2026-03-02`: what is due is due on a day and at no hour. */
import { DAY_MS } from '../../../shared/units/duration.ts';

export function addDays(on: string, days: number): string {
  return new Date(Date.parse(`${on}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
}

/** Whole days from one date to another; negative where it lies before. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS);
}

/** The first date with this month and day, `10-01`, on or after another date. */
export function nextYearly(monthDay: string, from: string): string {
  const same = `${from.slice(0, 4)}-${monthDay}`;
  return same >= from ? same : `${Number(from.slice(0, 4)) + 1}-${monthDay}`;
}
