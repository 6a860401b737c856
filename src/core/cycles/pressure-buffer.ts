/**
 * The last seconds of a well's pressure, and what the contract reads from them: cut-in along the
 * line before a start, cut-out as the highest median of three before a stop. Enough is kept to look
 * back from a start or stop that is believed a little late.
 */
export interface PressureBuffer {
  /** Readings, oldest first. */
  timeMs: number[];
  kpa: number[];
  /** Kept longer where a pump's current comes as means over a long span, ms. */
  keepMs?: number;
}

/** How pressure is sampled: fine, over 3 s apart, or by exception. */
export type Sampling = 'fine' | 'coarse' | 'by-exception';

const LOOKBACK_MS = 10_000;
/** Look-back plus the longest wait until a start or stop is believed (two readings 10 s apart). */
const KEEP_MS = 32_000;
const MIN_KEPT = 6;
const TRIM_AT = 64;
/**
 * A value by exception is good for 90 s; three readings of coarse sampling at 10 s lie within 35 s.
 */
const HELD_VALID_MS = 90_000;
const COARSE_SPAN_MS = 35_000;
const COARSE_READINGS = 3;

export function newPressureBuffer(): PressureBuffer {
  return { timeMs: [], kpa: [] };
}

export function addPressure(buffer: PressureBuffer, tMs: number, kpa: number): void {
  buffer.timeMs.push(tMs);
  buffer.kpa.push(kpa);
  const n = buffer.timeMs.length;
  if (n < TRIM_AT || (n & 15) !== 0) return;
  let from = 0;
  while (n - from > MIN_KEPT && buffer.timeMs[from]! < tMs - (buffer.keepMs ?? KEEP_MS)) from++;
  if (from > 0) {
    buffer.timeMs.splice(0, from);
    buffer.kpa.splice(0, from);
  }
}

/** Index of the first reading at or after `tMs`. */
function indexFrom(buffer: PressureBuffer, tMs: number): number {
  let at = buffer.timeMs.length;
  while (at > 0 && buffer.timeMs[at - 1]! >= tMs) at--;
  return at;
}

/**
 * Value at `atMs` of the straight line through readings `from` to `to` (least squares); the mean
 * where they are of one moment.
 */
function fitValueAt(buffer: PressureBuffer, from: number, to: number, atMs: number): number {
  const n = to - from;
  let sumT = 0;
  let sumP = 0;
  for (let i = from; i < to; i++) {
    sumT += buffer.timeMs[i]! - atMs;
    sumP += buffer.kpa[i]!;
  }
  const meanT = sumT / n;
  const meanP = sumP / n;
  let tt = 0;
  let tp = 0;
  for (let i = from; i < to; i++) {
    const t = buffer.timeMs[i]! - atMs - meanT;
    tt += t * t;
    tp += t * (buffer.kpa[i]! - meanP);
  }
  return tt === 0 ? meanP : meanP - (tp / tt) * meanT;
}

/** The value that held at `tMs`, by exception. */
function heldAt(buffer: PressureBuffer, tMs: number): number | undefined {
  const at = indexFrom(buffer, tMs + 1) - 1;
  if (at < 0 || tMs - buffer.timeMs[at]! > HELD_VALID_MS) return undefined;
  return buffer.kpa[at];
}

/**
 * Pressure at `startedMs`, kPa; only readings of the rest since `restFromMs` count. Absent where it
 * was not measured.
 */
export function readCutIn(
  buffer: PressureBuffer,
  startedMs: number,
  restFromMs: number,
  sampling: Sampling,
): number | undefined {
  if (sampling === 'by-exception') return heldAt(buffer, startedMs);
  const to = indexFrom(buffer, startedMs);
  if (sampling === 'coarse') {
    const from = to - COARSE_READINGS;
    if (from < 0 || buffer.timeMs[from]! < Math.max(restFromMs, startedMs - COARSE_SPAN_MS)) return undefined;
    return fitValueAt(buffer, from, to, startedMs);
  }
  const from = indexFrom(buffer, Math.max(restFromMs, startedMs - LOOKBACK_MS));
  return to > from ? fitValueAt(buffer, from, to, startedMs) : undefined;
}

/**
 * Pressure where the run ended, kPa; only readings of the run count. Absent with fewer than three
 * (by exception: none).
 */
export function readCutOut(
  buffer: PressureBuffer,
  startedMs: number,
  stoppedMs: number,
  sampling: Sampling,
): number | undefined {
  const fromMs = Math.max(startedMs, stoppedMs - LOOKBACK_MS);
  const to = indexFrom(buffer, stoppedMs);
  if (sampling === 'by-exception') {
    let best = heldAt(buffer, fromMs);
    for (let i = indexFrom(buffer, fromMs); i < to; i++) best = Math.max(best ?? -Infinity, buffer.kpa[i]!);
    return best;
  }
  if (sampling === 'coarse') {
    const from = to - COARSE_READINGS;
    if (from < 0 || buffer.timeMs[from]! < Math.max(startedMs, stoppedMs - COARSE_SPAN_MS)) return undefined;
    return fitValueAt(buffer, from, to, stoppedMs);
  }
  let best: number | undefined;
  for (let i = indexFrom(buffer, fromMs) + 2; i < to; i++) {
    const middle = medianOfThree(buffer.kpa[i - 2]!, buffer.kpa[i - 1]!, buffer.kpa[i]!);
    if (best === undefined || middle > best) best = middle;
  }
  return best;
}

/**
 * Where current comes as means over a long span, a run began somewhere in the two spans before its
 * first running mean: there pressure turned from falling to rising, and its lowest is the cut-in.
 */
export function readCutInOfSpans(
  buffer: PressureBuffer,
  startedMs: number,
  restFromMs: number,
  spanMs: number,
): number | undefined {
  return extremeOf(buffer, Math.max(restFromMs, startedMs - 2 * spanMs), startedMs, Math.min);
}

/** As the cut-in: the highest in the two spans before the first mean at rest. */
export function readCutOutOfSpans(
  buffer: PressureBuffer,
  startedMs: number,
  stoppedMs: number,
  spanMs: number,
): number | undefined {
  return extremeOf(buffer, Math.max(startedMs, stoppedMs - 2 * spanMs), stoppedMs, Math.max);
}

/** Keeps enough to look back over two spans when the second of two means is read. */
export function keepForSpans(buffer: PressureBuffer, spanMs: number): void {
  const keepMs = 4 * spanMs + KEEP_MS;
  if ((buffer.keepMs ?? 0) < keepMs) buffer.keepMs = keepMs;
}

function extremeOf(
  buffer: PressureBuffer,
  fromMs: number,
  untilMs: number,
  pick: (a: number, b: number) => number,
): number | undefined {
  const from = indexFrom(buffer, fromMs);
  const to = indexFrom(buffer, untilMs + 1);
  let best: number | undefined;
  for (let i = from; i < to; i++) best = best === undefined ? buffer.kpa[i]! : pick(best, buffer.kpa[i]!);
  return best;
}

export function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/**
 * When pressure was first at or over `kpa`, from `fromMs` on; absent where it was not within the
 * trail.
 */
export function firstAtOrOver(buffer: PressureBuffer, fromMs: number, kpa: number): number | undefined {
  for (let i = indexFrom(buffer, fromMs); i < buffer.timeMs.length; i++) {
    if (buffer.kpa[i]! >= kpa) return buffer.timeMs[i];
  }
  return undefined;
}

/** Pressure where the trail stands at `tMs`: the last reading at or before it. */
export function kpaBefore(buffer: PressureBuffer, tMs: number): number | undefined {
  const at = indexFrom(buffer, tMs + 1) - 1;
  return at < 0 ? undefined : buffer.kpa[at];
}
