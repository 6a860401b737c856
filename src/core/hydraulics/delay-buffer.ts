/**
 * The last minute of pressure, held back before it is used. A start or stop is only sure a few
 * readings after it happened; by then nothing of the minute has been booked as rest or run, so the
 * boundary falls where it belongs. Readings closer than a second are averaged first, so that a
 * minute always fits.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';

/**
 * A minute; and slots for it at 1.5 s and slower. Closer readings are averaged first, from just
 * under a second, so that readings a second apart stay single.
 */
const BUFFER_MS = MINUTE_MS;
const MAX_BUFFERED = 40;
const MIN_SPACING_MS = 900;

export interface DelayBuffer {
  /** Times relative to `baseMs`, oldest first from `from` on. */
  baseMs: number;
  offsetMs: number[];
  kpa: number[];
  from: number;
  /** Readings averaged in the newest point. */
  newestCount: number;
}

export function newDelayBuffer(): DelayBuffer {
  return { baseMs: 0, offsetMs: [], kpa: [], from: 0, newestCount: 0 };
}

export function bufferReading(buffer: DelayBuffer, atMs: number, kpa: number): void {
  const last = buffer.kpa.length - 1;
  if (last < buffer.from) {
    clearBuffer(buffer);
    buffer.baseMs = atMs;
  } else if (atMs - buffer.baseMs - buffer.offsetMs[last]! < MIN_SPACING_MS && buffer.newestCount < 100) {
    buffer.newestCount++;
    buffer.kpa[last] = buffer.kpa[last]! + (kpa - buffer.kpa[last]!) / buffer.newestCount;
    return;
  }
  buffer.offsetMs.push(atMs - buffer.baseMs);
  buffer.kpa.push(kpa);
  buffer.newestCount = 1;
}

/** Whether the oldest held point is due by now. */
export function isOldestDue(buffer: DelayBuffer, nowMs: number): boolean {
  const count = buffer.kpa.length - buffer.from;
  return (
    count > 0 && (count > MAX_BUFFERED || nowMs - buffer.baseMs - buffer.offsetMs[buffer.from]! > BUFFER_MS)
  );
}

/** Time of the oldest held point, or Infinity. */
export function oldestBufferedMs(buffer: DelayBuffer): number {
  return buffer.from < buffer.kpa.length ? buffer.baseMs + buffer.offsetMs[buffer.from]! : Infinity;
}

/** Pressure of the oldest held point. Call only where there is one. */
export function oldestBufferedKpa(buffer: DelayBuffer): number {
  return buffer.kpa[buffer.from]!;
}

/** Lets the oldest point go, once it was looked at. Call only where there is one. */
export function releaseOldest(buffer: DelayBuffer): void {
  buffer.from++;
  if (buffer.from >= MAX_BUFFERED) compactBuffer(buffer);
}

export function clearBuffer(buffer: DelayBuffer): void {
  buffer.offsetMs.length = 0;
  buffer.kpa.length = 0;
  buffer.from = 0;
  buffer.newestCount = 0;
}

/** Drops what was let go, and starts the offsets anew so that they stay short when saved. */
function compactBuffer(buffer: DelayBuffer): void {
  const { offsetMs, kpa, from } = buffer;
  const shift = offsetMs[from] ?? 0;
  const left = kpa.length - from;
  for (let i = 0; i < left; i++) {
    offsetMs[i] = offsetMs[i + from]! - shift;
    kpa[i] = kpa[i + from]!;
  }
  offsetMs.length = kpa.length = left;
  buffer.baseMs += shift;
  buffer.from = 0;
}
