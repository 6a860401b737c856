/**
 * A stretch of one series as few bytes, exact to the last bit. Values are whole numbers of the
 * sensor's own decimal step, times a first one and a period with what departs from it; both go
 * through ./integer-list.ts. Where no step or no whole ms fits, the doubles are kept as they are,
 * deflated.
 *
 * Block: version, CRC-32 of the rest, what it has, count, times, faults where there are any,
 * values.
 */
import { crc32, deflateRawSync, inflateRawSync } from 'node:zlib';
import {
  newByteSink,
  writeByte,
  writeBytes,
  writeVarint,
  writeSignedVarint,
  writeUint32,
  readByte,
  readBytes,
  readVarint,
  readSignedVarint,
  readUint32,
  writtenBytes,
} from './bytes.ts';
import type { ByteSink, ByteSource } from './bytes.ts';
import { newColumns } from './columns.ts';
import { findStep, stepOf, toInteger } from './decimal.ts';
import type { Step } from './decimal.ts';
import type { Series } from '../store.ts';
import { writeIntegers, readIntegers } from './integer-list.ts';

const VERSION = 1;
const HEAD_BYTES = 5;

const HAS_FAULTS = 1;
const VALUES_RAW = 2;
const VALUES_SINGLE = 4;
const TIMES_RAW = 8;
const TIMES_LIST = 16;

const DECIMALS_OFFSET = 8;
/**
 * With fewer departures from the period than one in so many readings, they are listed; else each
 * reading has its own.
 */
const MIN_READINGS_PER_EXCEPTION = 32;
const MAX_TIME_MS = 2 ** 50;

/** The first `n` readings, ordered by time (equal times are allowed). */
export function encodeBlock(series: Series): Buffer {
  const { n, timeMs, value, fault } = series;
  const sink = newByteSink(1024 + n);
  const faulty = fault.subarray(0, n).some((code) => code !== 0);
  const step = findStep(value, n, fault);
  const period = commonPeriod(timeMs, n);
  const listed = period !== undefined && countExceptions(timeMs, n, period) * MIN_READINGS_PER_EXCEPTION <= n;
  writeByte(sink, VERSION);
  writeUint32(sink, 0);
  writeByte(
    sink,
    (faulty ? HAS_FAULTS : 0) |
      (step ? 0 : VALUES_RAW) |
      (step?.single ? VALUES_SINGLE : 0) |
      (period === undefined ? TIMES_RAW : 0) |
      (listed ? TIMES_LIST : 0),
  );
  writeVarint(sink, n);
  writeTimes(sink, timeMs, n, period, listed);
  if (faulty) writeIntegers(sink, Float64Array.from(fault.subarray(0, n)), n);
  if (step) {
    writeByte(sink, step.decimals + DECIMALS_OFFSET);
    writeIntegers(sink, integerSteps(series, step), n);
  } else writeDoubles(sink, value, n);
  const block = writtenBytes(sink);
  block.writeUInt32LE(crc32(block.subarray(HEAD_BYTES)), 1);
  return block;
}

/** @throws RangeError where the bytes are not what was written. */
export function decodeBlock(block: Buffer): Series {
  if (block[0] !== VERSION)
    throw new RangeError(`Cannot read block: its version must be ${VERSION}: ${block[0]}`);
  const source: ByteSource = { bytes: block, offset: 1 };
  if (readUint32(source) !== crc32(block.subarray(HEAD_BYTES))) {
    throw new RangeError('Cannot read block: its checksum does not match');
  }
  const has = readByte(source);
  const n = readVarint(source);
  const series = newColumns(n);
  series.n = n;
  readTimes(source, series.timeMs, n, has);
  if (has & HAS_FAULTS) {
    const codes = new Float64Array(n);
    readIntegers(source, codes, n);
    series.fault.set(codes);
  }
  if (has & VALUES_RAW) readDoubles(source, series.value, n);
  else readSteps(source, series, (has & VALUES_SINGLE) !== 0);
  if (has & HAS_FAULTS) {
    for (let i = 0; i < n; i++) if (series.fault[i] !== 0) series.value[i] = Number.NaN;
  }
  return series;
}

/** A fault has no value: the one before it stands in, since that costs the least. */
function integerSteps({ n, value, fault }: Series, step: Step): Float64Array {
  const wholes = new Float64Array(n);
  let last = 0;
  for (let i = 0; i < n; i++) {
    if (fault[i] === 0) last = toInteger(value[i]!, step);
    wholes[i] = last;
  }
  return wholes;
}

function readSteps(source: ByteSource, { n, value }: Series, single: boolean): void {
  readIntegers(source, value, n, stepOf(readByte(source) - DECIMALS_OFFSET, single));
  if (single) for (let i = 0; i < n; i++) value[i] = Math.fround(value[i]!);
}

function writeDoubles(sink: ByteSink, list: Float64Array, n: number): void {
  const packed = deflateRawSync(new Uint8Array(list.slice(0, n).buffer), { level: 9 });
  writeVarint(sink, packed.length);
  writeBytes(sink, packed);
}

function readDoubles(source: ByteSource, to: Float64Array, n: number): void {
  const bytes = inflateRawSync(readBytes(source, readVarint(source)));
  if (bytes.length !== n * 8)
    throw new RangeError(`Cannot read block: ${n} doubles must be ${n * 8} bytes: ${bytes.length}`);
  to.set(new Float64Array(Uint8Array.from(bytes).buffer));
}

/**
 * The commonest distance of neighbours by Boyer and Moore's vote; undefined where a time is no
 * whole ms.
 */
function commonPeriod(timeMs: Float64Array, n: number): number | undefined {
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
  return votes > 0 ? period : medianPeriod(timeMs, n);
}

/**
 * Where no distance is the common one (jitter), the middle one of them: what is left is the jitter
 * alone.
 */
function medianPeriod(timeMs: Float64Array, n: number): number {
  const distances = new Float64Array(Math.max(0, n - 1));
  for (let i = 1; i < n; i++) distances[i - 1] = timeMs[i]! - timeMs[i - 1]!;
  return distances.sort()[distances.length >> 1] ?? 0;
}

function countExceptions(timeMs: Float64Array, n: number, period: number): number {
  let count = 0;
  for (let i = 1; i < n; i++) if (timeMs[i]! - timeMs[i - 1]! !== period) count += 1;
  return count;
}

function writeTimes(
  sink: ByteSink,
  timeMs: Float64Array,
  n: number,
  period: number | undefined,
  listed: boolean,
): void {
  if (n === 0) return;
  if (period === undefined) {
    writeDoubles(sink, timeMs, n);
    return;
  }
  writeSignedVarint(sink, period);
  if (!listed) {
    writeIntegers(
      sink,
      Float64Array.from(timeMs.subarray(0, n), (t, i) => t - i * period),
      n,
    );
    return;
  }
  writeSignedVarint(sink, timeMs[0]!);
  writeVarint(sink, countExceptions(timeMs, n, period));
  let lastAt = 0;
  for (let i = 1; i < n; i++) {
    const distance = timeMs[i]! - timeMs[i - 1]!;
    if (distance === period) continue;
    writeVarint(sink, i - lastAt);
    writeSignedVarint(sink, distance - period);
    lastAt = i;
  }
}

function readTimes(source: ByteSource, timeMs: Float64Array, n: number, has: number): void {
  if (n === 0) return;
  if (has & TIMES_RAW) {
    readDoubles(source, timeMs, n);
    return;
  }
  const period = readSignedVarint(source);
  if (!(has & TIMES_LIST)) {
    readIntegers(source, timeMs, n);
    for (let i = 0; i < n; i++) timeMs[i] = timeMs[i]! + i * period;
    return;
  }
  let t = readSignedVarint(source);
  let left = readVarint(source);
  let next = left > 0 ? readVarint(source) : n;
  timeMs[0] = t;
  for (let i = 1; i < n; i++) {
    t += period;
    if (i === next) {
      t += readSignedVarint(source);
      left -= 1;
      next = left > 0 ? i + readVarint(source) : n;
    }
    timeMs[i] = t;
  }
}
