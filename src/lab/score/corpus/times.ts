/**
 * Times of the corpus. All faulty wells live seven hours behind UTC, where no summer time moves
 * their days, and begin on the same Monday; healthy ones begin where their season wants it. The
 * engine learns what is normal in the first week, so faults begin after.
 */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';

export const OFFSET_H = -7;
/** Monday 2 March 2026, local midnight. */
export const FROM_MS = Date.UTC(2026, 2, 2) - OFFSET_H * HOUR_MS;

/** A local moment of a faulty well: its day (0 the first), hour and minute. */
export function at(day: number, hour = 0, minute = 0): number {
  return FROM_MS + day * DAY_MS + hour * HOUR_MS + minute * MINUTE_MS;
}

export function hours(count: number): number {
  return count * HOUR_MS;
}

export function minutes(count: number): number {
  return count * MINUTE_MS;
}

/** Local midnight of a date of 2026 at an offset from UTC; the month from 1. */
export function midnight(month: number, day: number, utcOffsetH = OFFSET_H): number {
  return Date.UTC(2026, month - 1, day) - utcOffsetH * HOUR_MS;
}

/** Local hour of a day, 0 up to 24, fractions included. */
export function hourOf(tMs: number, utcOffsetH = OFFSET_H): number {
  const ms = (((tMs + utcOffsetH * HOUR_MS) % DAY_MS) + DAY_MS) % DAY_MS;
  return ms / HOUR_MS;
}

/** Whole local days since 1970. */
export function dayOf(tMs: number, utcOffsetH = OFFSET_H): number {
  return Math.floor((tMs + utcOffsetH * HOUR_MS) / DAY_MS);
}

/** 0 is Sunday. */
export function weekdayOf(tMs: number, utcOffsetH = OFFSET_H): number {
  return (dayOf(tMs, utcOffsetH) + 4) % 7;
}

/** The same hours of some days, the first day 0. */
export function spansOn(
  fromMs: number,
  days: readonly number[],
  hour: number,
  forH: number,
): { fromMs: number; untilMs: number }[] {
  return days.map((day) => {
    const beginMs = fromMs + day * DAY_MS + hours(hour);
    return { fromMs: beginMs, untilMs: beginMs + hours(forH) };
  });
}
