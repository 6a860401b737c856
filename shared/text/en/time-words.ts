/**
 * Times as people say them, in the well's own time zone: "10:40 am", "Tuesday", "3 March". Now is
 * an argument; Intl does the calendar, days of 23 and 25 hours included.
 */
import { DAY_MS } from '../../units/duration.ts';
import { formatDuration } from './format.ts';
import type { UnitSystem } from '../../quantity/format-quantity.ts';

/** "Tuesday" is clear for six days; on the seventh it could be today. */
const WEEKDAY_CLEAR_MS = 6 * DAY_MS;

const formatters = new Map<string, Intl.DateTimeFormat>();

function formatIntl(timeZone: string, options: Intl.DateTimeFormatOptions, atMs: number): string {
  const key = JSON.stringify([timeZone, options]);
  let one = formatters.get(key);
  if (!one) {
    one = new Intl.DateTimeFormat('en-US', { timeZone, ...options });
    formatters.set(key, one);
  }
  return one.format(atMs);
}

/** The local date as ISO text, `2026-03-02`. */
export function localDate(atMs: number, timeZone: string): string {
  const text = formatIntl(timeZone, { year: 'numeric', month: '2-digit', day: '2-digit' }, atMs);
  return `${text.slice(6)}-${text.slice(0, 2)}-${text.slice(3, 5)}`;
}

/** Clock time: "10:40 am" with US units, "10:40" with metric ones. */
export function clockWords(atMs: number, timeZone: string, system: UnitSystem): string {
  const hour12 = system === 'us';
  const text = formatIntl(
    timeZone,
    { hour: hour12 ? 'numeric' : '2-digit', minute: '2-digit', hourCycle: hour12 ? 'h12' : 'h23' },
    atMs,
  );
  return text
    .replace(/[\u202f\u00a0]/g, ' ')
    .replace('AM', 'am')
    .replace('PM', 'pm');
}

/** Day and month, with the year where it is not this one: "3 March", "3 March 2025". */
export function dateWords(atMs: number, timeZone: string, nowMs: number): string {
  const [day, month, year] = ['day', 'month', 'year'].map((part) =>
    formatIntl(timeZone, { [part]: part === 'month' ? 'long' : 'numeric' }, atMs),
  );
  return localDate(atMs, timeZone).slice(0, 4) === localDate(nowMs, timeZone).slice(0, 4)
    ? `${day} ${month}`
    : `${day} ${month} ${year}`;
}

/**
 * A moment in the past as people point at it: "10:40 am" today, "Tuesday" this week, else the date.
 */
export function whenWords(atMs: number, timeZone: string, system: UnitSystem, nowMs: number): string {
  if (localDate(atMs, timeZone) === localDate(nowMs, timeZone)) return clockWords(atMs, timeZone, system);
  if (atMs < nowMs && nowMs - atMs < WEEKDAY_CLEAR_MS) return formatIntl(timeZone, { weekday: 'long' }, atMs);
  return dateWords(atMs, timeZone, nowMs);
}

/** A moment in full: "Tue 3 March, 10:40 am". */
export function momentWords(atMs: number, timeZone: string, system: UnitSystem, nowMs: number): string {
  const weekday = formatIntl(timeZone, { weekday: 'short' }, atMs);
  return `${weekday} ${dateWords(atMs, timeZone, nowMs)}, ${clockWords(atMs, timeZone, system)}`;
}

/** How long ago: "just now", "4 min ago". */
export function agoWords(atMs: number, nowMs: number): string {
  const ms = nowMs - atMs;
  return ms < 10_000 ? 'just now' : `${formatDuration(ms / 1000)} ago`;
}
