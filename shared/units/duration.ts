/** Durations: what people say in minutes, hours and days is kept in seconds, and times in Unix milliseconds. */
const S_PER_MIN = 60;
const S_PER_H = 3600;
const MS_PER_S = 1000;

export function sFromMin(min: number): number {
  return min * S_PER_MIN;
}

export function minFromS(s: number): number {
  return s / S_PER_MIN;
}

export function sFromH(h: number): number {
  return h * S_PER_H;
}

export function hFromS(s: number): number {
  return s / S_PER_H;
}

export function msFromS(s: number): number {
  return s * MS_PER_S;
}

export function sFromMs(ms: number): number {
  return ms / MS_PER_S;
}
