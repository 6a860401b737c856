/**
 * From a date and time on the wall of a place to the instant, by Intl alone, since the pages reckon
 * it too and carry no calendar of their own. Held against the Temporal polyfill in
 * tests/shared/notes/local-moment.test.ts.
 */
import { DAY_MS, MINUTE_MS } from '../units/duration.ts';
export interface LocalMoment {
  year: number;
  /** 1 to 12. */
  month: number;
  day: number;
  hour: number;
  minute: number;
}

/** The wall's date and time in this zone. */
export function localMoment(atMs: number, timeZone: string): LocalMoment {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  }).formatToParts(atMs);
  const partValue = (type: string): number => Number(parts.find((part) => part.type === type)?.value);
  return {
    year: partValue('year'),
    month: partValue('month'),
    day: partValue('day'),
    hour: partValue('hour'),
    minute: partValue('minute'),
  };
}

/** As if the wall were in Greenwich. */
function asUtcMs({ year, month, day, hour, minute }: LocalMoment): number {
  return Date.UTC(year, month - 1, day, hour, minute);
}

/**
 * The instant at which the wall shows this, Unix ms. A time that comes twice (the clock goes back)
 * is its first; one that the clock skips is as much later as it skips.
 */
export function localToUtcMs(moment: LocalMoment, timeZone: string): number {
  const wantedMs = asUtcMs(moment);
  const offsetMs = (atMs: number): number =>
    asUtcMs(localMoment(atMs, timeZone)) - Math.floor(atMs / MINUTE_MS) * MINUTE_MS;
  // A day to either side of a change of the clock stand the only two offsets that can hold here.
  const before = wantedMs - offsetMs(wantedMs - DAY_MS);
  const after = wantedMs - offsetMs(wantedMs + DAY_MS);
  const isShownAt = (atMs: number): boolean => asUtcMs(localMoment(atMs, timeZone)) === wantedMs;
  if (isShownAt(before)) return before;
  return isShownAt(after) ? after : before;
}

/** Days from the date, over the ends of months; the time of day stays. */
export function addDays(moment: LocalMoment, days: number): LocalMoment {
  const date = new Date(Date.UTC(moment.year, moment.month - 1, moment.day + days));
  return {
    ...moment,
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    day: date.getUTCDate(),
  };
}

/** 1 Monday … 7 Sunday, as ISO 8601 counts. */
export function weekdayOf({ year, month, day }: LocalMoment): number {
  return new Date(Date.UTC(year, month - 1, day)).getUTCDay() || 7;
}

export function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}
