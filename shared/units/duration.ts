/**
 * Durations: what people say in minutes, hours and days is kept in seconds, and times in Unix
 * milliseconds.
 */
export const MINUTE_S = 60;
export const HOUR_S = 60 * MINUTE_S;
export const DAY_S = 24 * HOUR_S;
const MS_PER_S = 1000;
export const MINUTE_MS = MINUTE_S * MS_PER_S;
export const HOUR_MS = HOUR_S * MS_PER_S;
/** 24 hours; a day of the calendar can be an hour shorter or longer. */
export const DAY_MS = DAY_S * MS_PER_S;

export function sFromMin(min: number): number {
  return min * MINUTE_S;
}

export function minFromS(s: number): number {
  return s / MINUTE_S;
}

export function sFromH(h: number): number {
  return h * HOUR_S;
}

export function hFromS(s: number): number {
  return s / HOUR_S;
}

export function msFromS(s: number): number {
  return s * MS_PER_S;
}

export function sFromMs(ms: number): number {
  return ms / MS_PER_S;
}
