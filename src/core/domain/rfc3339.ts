/**
 * Times and dates as RFC 3339 writes them (sections 5.6 and 5.7), and nothing looser: what a
 * language runtime would also take for a date ("3/4", "2026") is refused. A leap second, 23:59:60,
 * is read as the second before it, since Unix time has no place for it. Read by hand, for a
 * recording has a time in each line; its test holds it against Temporal, which takes five times as
 * long.
 */
import { HOUR_S, MINUTE_MS, MINUTE_S } from '../../../shared/units/duration.ts';

const DATE = /^(\d{4})-(\d\d)-(\d\d)$/;
const DATE_TIME = /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d):(\d\d)(?:\.(\d+))?(?:([+-])(\d\d):(\d\d)|[Zz])$/;

/**
 * Unix ms (cut to whole ms) of an RFC 3339 date-time, or undefined. `form` is another way to write
 * the same ten parts.
 */
export function parseRfc3339(text: string, form = DATE_TIME): number | undefined {
  const parts = form.exec(text);
  if (parts === null) return undefined;
  const secondMs = utcSecondMs(
    Number(parts[1]),
    Number(parts[2]),
    Number(parts[3]),
    Number(parts[4]),
    Number(parts[5]),
    Number(parts[6]),
  );
  const [, , , , , , , fraction, sign, offsetH = '', offsetMin = ''] = parts;
  if (secondMs === undefined || Number(offsetH) > 23 || Number(offsetMin) > 59) return undefined;
  const ms = fraction === undefined ? 0 : Number(fraction.slice(0, 3).padEnd(3, '0'));
  const eastMin = (sign === '-' ? -1 : 1) * (60 * Number(offsetH) + Number(offsetMin));
  return secondMs + ms - eastMin * MINUTE_MS;
}

/** True for a date of the calendar, "2019-05-14". */
export function isIsoDate(text: string): boolean {
  const parts = DATE.exec(text);
  return parts !== null && utcDayMs(Number(parts[1]), Number(parts[2]), Number(parts[3])) !== undefined;
}

/** Unix ms of a moment by its numbers, UTC; undefined where one of them is out of its range. */
export function utcSecondMs(
  year: number,
  month: number,
  day: number,
  hour: number,
  minute: number,
  second: number,
): number | undefined {
  // What is no number is NaN, and no comparison with that holds.
  if (!(hour <= 23 && minute <= 59 && second <= 60)) return undefined;
  const dayMs = utcDayMs(year, month, day);
  if (dayMs === undefined) return undefined;
  return dayMs + (hour * HOUR_S + minute * MINUTE_S + Math.min(second, 59)) * 1000;
}

/** The last day that was read, and when it began: times come in order, mostly. */
const lastDay = { ymd: Number.NaN, ms: 0 };

/**
 * Unix ms of a day's UTC midnight; undefined for what is no date of the calendar, 30 February
 * included.
 */
function utcDayMs(year: number, month: number, day: number): number | undefined {
  const ymd = (year * 100 + month) * 100 + day;
  if (ymd === lastDay.ymd) return lastDay.ms;
  // Date.UTC would take the years below 100 for those of the 20th century.
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined;
  lastDay.ymd = ymd;
  lastDay.ms = date.getTime();
  return lastDay.ms;
}
