/**
 * A stretch of one series as few bytes, exact to the last bit. Values are whole numbers of the sensor's own decimal step, times a
 * first one and a period with what departs from it; both go through ./whole-list.ts. Where no step or no whole ms fits, the doubles
 * are kept as they are, deflated.
 *
 * Block: version, CRC-32 of the rest, what it has, count, times, faults where there are any, values.
 */
import { crc32, deflateRawSync, inflateRawSync } from 'node:zlib';
import {
  newSink,
  putByte,
  putBytes,
  putCount,
  putSigned,
  putWord,
  takeByte,
  takeBytes,
  takeCount,
  takeSigned,
  takeWord,
  written,
} from './bytes.ts';
import type { Sink, Source } from './bytes.ts';
import { newColumns } from './columns.ts';
import { findStep, stepOf, toWhole } from './decimal.ts';
import type { Step } from './decimal.ts';
import type { Series } from './store.ts';
import { putWholes, takeWholes } from './whole-list.ts';

const VERSION = 1;
const HEAD_BYTES = 5;

const HAS_FAULTS = 1;
const VALUES_RAW = 2;
const VALUES_SINGLE = 4;
const TIMES_RAW = 8;
const TIMES_LIST = 16;

const DECIMALS_OFFSET = 8;
/** With fewer departures from the period than one in so many readings, they are listed; else each reading has its own. */
const LISTED_SHARE = 32;
const MAX_TIME_MS = 2 ** 50;

/** The first `n` readings, ordered by time (equal times are allowed). */
export function encodeBlock(series: Series): Buffer {
  const { n, timeMs, value, fault } = series;
  const sink = newSink(1024 + n);
  const faulty = fault.subarray(0, n).some((code) => code !== 0);
  const step = findStep(value, n, fault);
  const period = periodOf(timeMs, n);
  const listed = period !== undefined && departures(timeMs, n, period) * LISTED_SHARE <= n;
  putByte(sink, VERSION);
  putWord(sink, 0);
  putByte(
    sink,
    (faulty ? HAS_FAULTS : 0) |
      (step ? 0 : VALUES_RAW) |
      (step?.single ? VALUES_SINGLE : 0) |
      (period === undefined ? TIMES_RAW : 0) |
      (listed ? TIMES_LIST : 0),
  );
  putCount(sink, n);
  putTimes(sink, timeMs, n, period, listed);
  if (faulty) putWholes(sink, Float64Array.from(fault.subarray(0, n)), n);
  if (step) {
    putByte(sink, step.decimals + DECIMALS_OFFSET);
    putWholes(sink, wholesOf(series, step), n);
  } else putDoubles(sink, value, n);
  const block = written(sink);
  block.writeUInt32LE(crc32(block.subarray(HEAD_BYTES)), 1);
  return block;
}

/** @throws RangeError where the bytes are not what was written. */
export function decodeBlock(block: Buffer): Series {
  if (block[0] !== VERSION)
    throw new RangeError(`Cannot read block: its version must be ${VERSION}: ${block[0]}`);
  const source: Source = { bytes: block, at: 1 };
  if (takeWord(source) !== crc32(block.subarray(HEAD_BYTES))) {
    throw new RangeError('Cannot read block: its checksum does not match');
  }
  const has = takeByte(source);
  const n = takeCount(source);
  const series = newColumns(n);
  series.n = n;
  takeTimes(source, series.timeMs, n, has);
  if (has & HAS_FAULTS) {
    const codes = new Float64Array(n);
    takeWholes(source, codes, n);
    series.fault.set(codes);
  }
  if (has & VALUES_RAW) takeDoubles(source, series.value, n);
  else takeSteps(source, series, (has & VALUES_SINGLE) !== 0);
  if (has & HAS_FAULTS) {
    for (let i = 0; i < n; i++) if (series.fault[i] !== 0) series.value[i] = Number.NaN;
  }
  return series;
}

/** A fault has no value: the one before it stands in, since that costs the least. */
function wholesOf({ n, value, fault }: Series, step: Step): Float64Array {
  const wholes = new Float64Array(n);
  let last = 0;
  for (let i = 0; i < n; i++) {
    if (fault[i] === 0) last = toWhole(value[i]!, step);
    wholes[i] = last;
  }
  return wholes;
}

function takeSteps(source: Source, { n, value }: Series, single: boolean): void {
  takeWholes(source, value, n, stepOf(takeByte(source) - DECIMALS_OFFSET, single));
  if (single) for (let i = 0; i < n; i++) value[i] = Math.fround(value[i]!);
}

function putDoubles(sink: Sink, list: Float64Array, n: number): void {
  const packed = deflateRawSync(new Uint8Array(list.slice(0, n).buffer), { level: 9 });
  putCount(sink, packed.length);
  putBytes(sink, packed);
}

function takeDoubles(source: Source, to: Float64Array, n: number): void {
  const bytes = inflateRawSync(takeBytes(source, takeCount(source)));
  if (bytes.length !== n * 8)
    throw new RangeError(`Cannot read block: ${n} doubles must be ${n * 8} bytes: ${bytes.length}`);
  to.set(new Float64Array(Uint8Array.from(bytes).buffer));
}

/** The commonest distance of neighbours by Boyer and Moore's vote; undefined where a time is no whole ms. */
function periodOf(timeMs: Float64Array, n: number): number | undefined {
  let period = 0;
  let votes = 0;
  for (let i = 0; i < n; i++) {
    const t = timeMs[i]!;
    if (!Number.isSafeInteger(t) || Math.abs(t) > MAX_TIME_MS || Object.is(t, -0)) return undefined;
    if (i === 0) continue;
    const distance = t - timeMs[i - 1]!;
    if (votes === 0) period = distance;
    votes += distance === period ? 1 : -1;
  }
  return votes > 0 ? period : meanPeriod(timeMs, n);
}

/** Where no distance is the common one (jitter), the middle one of them: what is left is the jitter alone. */
function meanPeriod(timeMs: Float64Array, n: number): number {
  const distances = new Float64Array(Math.max(0, n - 1));
  for (let i = 1; i < n; i++) distances[i - 1] = timeMs[i]! - timeMs[i - 1]!;
  return distances.sort()[distances.length >> 1] ?? 0;
}

function departures(timeMs: Float64Array, n: number, period: number): number {
  let count = 0;
  for (let i = 1; i < n; i++) if (timeMs[i]! - timeMs[i - 1]! !== period) count += 1;
  return count;
}

function putTimes(
  sink: Sink,
  timeMs: Float64Array,
  n: number,
  period: number | undefined,
  listed: boolean,
): void {
  if (n === 0) return;
  if (period === undefined) {
    putDoubles(sink, timeMs, n);
    return;
  }
  putSigned(sink, period);
  if (!listed) {
    putWholes(
      sink,
      Float64Array.from(timeMs.subarray(0, n), (t, i) => t - i * period),
      n,
    );
    return;
  }
  putSigned(sink, timeMs[0]!);
  putCount(sink, departures(timeMs, n, period));
  let lastAt = 0;
  for (let i = 1; i < n; i++) {
    const distance = timeMs[i]! - timeMs[i - 1]!;
    if (distance === period) continue;
    putCount(sink, i - lastAt);
    putSigned(sink, distance - period);
    lastAt = i;
  }
}

function takeTimes(source: Source, timeMs: Float64Array, n: number, has: number): void {
  if (n === 0) return;
  if (has & TIMES_RAW) {
    takeDoubles(source, timeMs, n);
    return;
  }
  const period = takeSigned(source);
  if (!(has & TIMES_LIST)) {
    takeWholes(source, timeMs, n);
    for (let i = 0; i < n; i++) timeMs[i] = timeMs[i]! + i * period;
    return;
  }
  let t = takeSigned(source);
  let left = takeCount(source);
  let next = left > 0 ? takeCount(source) : n;
  timeMs[0] = t;
  for (let i = 1; i < n; i++) {
    t += period;
    if (i === next) {
      t += takeSigned(source);
      left -= 1;
      next = left > 0 ? i + takeCount(source) : n;
    }
    timeMs[i] = t;
  }
}
