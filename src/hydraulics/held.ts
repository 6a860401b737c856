/**
 * The last minute of pressure, held back before it is used. A start or stop is only sure a few readings after it happened; by then
 * nothing of the minute has been booked as rest or run, so the boundary falls where it belongs. Readings closer than a second are
 * averaged first, so that a minute always fits.
 */

const HELD_MS = 60_000;
const HELD_MOST = 40;
const TOGETHER_MS = 900;

export interface Held {
  /** Times relative to `baseMs`, oldest first from `from` on. */
  baseMs: number;
  offsetMs: number[];
  kpa: number[];
  from: number;
  /** Readings averaged in the newest point. */
  newestN: number;
}

export function newHeld(): Held {
  return { baseMs: 0, offsetMs: [], kpa: [], from: 0, newestN: 0 };
}

export function hold(held: Held, atMs: number, kpa: number): void {
  const last = held.kpa.length - 1;
  if (last < held.from) {
    clearHeld(held);
    held.baseMs = atMs;
  } else if (atMs - held.baseMs - held.offsetMs[last]! < TOGETHER_MS && held.newestN < 100) {
    held.newestN++;
    held.kpa[last] = held.kpa[last]! + (kpa - held.kpa[last]!) / held.newestN;
    return;
  }
  held.offsetMs.push(atMs - held.baseMs);
  held.kpa.push(kpa);
  held.newestN = 1;
}

/** Whether the oldest held point is due by now. */
export function isDue(held: Held, nowMs: number): boolean {
  const count = held.kpa.length - held.from;
  return count > 0 && (count > HELD_MOST || nowMs - held.baseMs - held.offsetMs[held.from]! > HELD_MS);
}

/** Time of the oldest held point, or Infinity. */
export function oldestHeldMs(held: Held): number {
  return held.from < held.kpa.length ? held.baseMs + held.offsetMs[held.from]! : Infinity;
}

/** Pressure of the oldest held point. Call only where there is one. */
export function oldestHeldKpa(held: Held): number {
  return held.kpa[held.from]!;
}

/** Lets the oldest point go, once it was looked at. Call only where there is one. */
export function letGo(held: Held): void {
  held.from++;
  if (held.from >= HELD_MOST) tidy(held);
}

export function clearHeld(held: Held): void {
  held.offsetMs.length = 0;
  held.kpa.length = 0;
  held.from = 0;
  held.newestN = 0;
}

/** Drops what was let go, and starts the offsets anew so that they stay short when saved. */
function tidy(held: Held): void {
  const { offsetMs, kpa, from } = held;
  const shift = offsetMs[from] ?? 0;
  const left = kpa.length - from;
  for (let i = 0; i < left; i++) {
    offsetMs[i] = offsetMs[i + from]! - shift;
    kpa[i] = kpa[i + from]!;
  }
  offsetMs.length = kpa.length = left;
  held.baseMs += shift;
  held.from = 0;
}
