/**
 * Times and dates as RFC 3339 writes them (sections 5.6 and 5.7), and nothing looser: what a language runtime would also take for
 * a date ("3/4", "2026") is refused. A leap second, 23:59:60, is read as the second before it, since Unix time has no place for it.
 */
import { HOUR_S, MINUTE_MS } from '../../../shared/units/duration.ts';
const DATE_TIME = /^(\d{4}-\d\d-\d\d)[Tt ](\d\d):(\d\d):(\d\d)(\.\d+)?([Zz]|[+-]\d\d:\d\d)$/;

/** Unix ms (rounded to whole ms) of an RFC 3339 date-time, or undefined. */
export function parseRfc3339(text: string): number | undefined {
  const parts = DATE_TIME.exec(text);
  if (!parts) return undefined;
  const [, date = '', hour, minute, second, fraction = '', zone = ''] = parts;
  const dayMs = isoDateMs(date);
  const offsetMin = offsetOf(zone);
  if (dayMs === undefined || offsetMin === undefined) return undefined;
  if (Number(hour) > 23 || Number(minute) > 59 || Number(second) > 60) return undefined;
  const seconds = Number(hour) * HOUR_S + Number(minute) * 60 + Math.min(Number(second), 59);
  return dayMs + seconds * 1000 + Math.round(Number(`0${fraction}`) * 1000) - offsetMin * MINUTE_MS;
}

/** True for a date of the calendar, "2019-05-14". */
export function isIsoDate(text: string): boolean {
  return isoDateMs(text) !== undefined;
}

/** Unix ms of a date's UTC midnight; undefined for what is no date of the calendar, 30 February included. */
function isoDateMs(text: string): number | undefined {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return undefined;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 10) !== text ? undefined : ms;
}

function offsetOf(zone: string): number | undefined {
  if (zone === 'Z' || zone === 'z') return 0;
  const hours = Number(zone.slice(1, 3));
  const minutes = Number(zone.slice(4, 6));
  if (hours > 23 || minutes > 59) return undefined;
  return (zone.startsWith('-') ? -1 : 1) * (hours * 60 + minutes);
}
