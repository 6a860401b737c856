/**
 * The last seconds of a well's pressure, and what the contract reads from them: cut-in along the line before a start, cut-out as
 * the highest median of three before a stop. Enough is kept to look back from a start or stop that is believed a little late.
 */
export interface Trail {
  /** Readings, oldest first. */
  timeMs: number[];
  kpa: number[];
}

/** How pressure is sampled: fine, over 3 s apart, or by exception. */
export type Sampling = 'fine' | 'coarse' | 'by-exception';

const LOOK_BACK_MS = 10_000;
/** Look-back plus the longest wait until a start or stop is believed (two readings 10 s apart). */
const KEEP_MS = 32_000;
const LEAST_KEPT = 6;
const TRIM_AT = 64;
/** A value by exception is good for 90 s; three readings of coarse sampling at 10 s lie within 35 s. */
const HELD_GOOD_MS = 90_000;
const COARSE_SPAN_MS = 35_000;
const COARSE_READINGS = 3;

export function newTrail(): Trail {
  return { timeMs: [], kpa: [] };
}

export function trailReading(trail: Trail, tMs: number, kpa: number): void {
  trail.timeMs.push(tMs);
  trail.kpa.push(kpa);
  const n = trail.timeMs.length;
  if (n < TRIM_AT || (n & 15) !== 0) return;
  let from = 0;
  while (n - from > LEAST_KEPT && trail.timeMs[from]! < tMs - KEEP_MS) from++;
  if (from > 0) {
    trail.timeMs.splice(0, from);
    trail.kpa.splice(0, from);
  }
}

/** Index of the first reading at or after `tMs`. */
function firstFrom(trail: Trail, tMs: number): number {
  let at = trail.timeMs.length;
  while (at > 0 && trail.timeMs[at - 1]! >= tMs) at--;
  return at;
}

/** Value at `atMs` of the straight line through readings `from` to `to` (least squares); the mean where they are of one moment. */
function lineAt(trail: Trail, from: number, to: number, atMs: number): number {
  const n = to - from;
  let sumT = 0;
  let sumP = 0;
  for (let i = from; i < to; i++) {
    sumT += trail.timeMs[i]! - atMs;
    sumP += trail.kpa[i]!;
  }
  const meanT = sumT / n;
  const meanP = sumP / n;
  let tt = 0;
  let tp = 0;
  for (let i = from; i < to; i++) {
    const t = trail.timeMs[i]! - atMs - meanT;
    tt += t * t;
    tp += t * (trail.kpa[i]! - meanP);
  }
  return tt === 0 ? meanP : meanP - (tp / tt) * meanT;
}

/** The value that held at `tMs`, by exception. */
function heldAt(trail: Trail, tMs: number): number | undefined {
  const at = firstFrom(trail, tMs + 1) - 1;
  if (at < 0 || tMs - trail.timeMs[at]! > HELD_GOOD_MS) return undefined;
  return trail.kpa[at];
}

/** Pressure at `startedMs`, kPa; only readings of the rest since `restFromMs` count. Absent where it was not measured. */
export function readCutIn(
  trail: Trail,
  startedMs: number,
  restFromMs: number,
  sampling: Sampling,
): number | undefined {
  if (sampling === 'by-exception') return heldAt(trail, startedMs);
  const to = firstFrom(trail, startedMs);
  if (sampling === 'coarse') {
    const from = to - COARSE_READINGS;
    if (from < 0 || trail.timeMs[from]! < Math.max(restFromMs, startedMs - COARSE_SPAN_MS)) return undefined;
    return lineAt(trail, from, to, startedMs);
  }
  const from = firstFrom(trail, Math.max(restFromMs, startedMs - LOOK_BACK_MS));
  return to > from ? lineAt(trail, from, to, startedMs) : undefined;
}

/** Pressure where the run ended, kPa; only readings of the run count. Absent with fewer than three (by exception: none). */
export function readCutOut(
  trail: Trail,
  startedMs: number,
  stoppedMs: number,
  sampling: Sampling,
): number | undefined {
  const fromMs = Math.max(startedMs, stoppedMs - LOOK_BACK_MS);
  const to = firstFrom(trail, stoppedMs);
  if (sampling === 'by-exception') {
    let best = heldAt(trail, fromMs);
    for (let i = firstFrom(trail, fromMs); i < to; i++) best = Math.max(best ?? -Infinity, trail.kpa[i]!);
    return best;
  }
  if (sampling === 'coarse') {
    const from = to - COARSE_READINGS;
    if (from < 0 || trail.timeMs[from]! < Math.max(startedMs, stoppedMs - COARSE_SPAN_MS)) return undefined;
    return lineAt(trail, from, to, stoppedMs);
  }
  let best: number | undefined;
  for (let i = firstFrom(trail, fromMs) + 2; i < to; i++) {
    const middle = medianOfThree(trail.kpa[i - 2]!, trail.kpa[i - 1]!, trail.kpa[i]!);
    if (best === undefined || middle > best) best = middle;
  }
  return best;
}

export function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/** When pressure was first at or over `kpa`, from `fromMs` on; absent where it was not within the trail. */
export function firstOver(trail: Trail, fromMs: number, kpa: number): number | undefined {
  for (let i = firstFrom(trail, fromMs); i < trail.timeMs.length; i++) {
    if (trail.kpa[i]! >= kpa) return trail.timeMs[i];
  }
  return undefined;
}

/** Pressure where the trail stands at `tMs`: the last reading at or before it. */
export function kpaBefore(trail: Trail, tMs: number): number | undefined {
  const at = firstFrom(trail, tMs + 1) - 1;
  return at < 0 ? undefined : trail.kpa[at];
}
