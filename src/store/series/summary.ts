/**
 * What a chart of a year needs of a block, without opening it: count, lowest, highest and sum of
 * each three hours (UTC). Three hours hold 2,160 readings at 5 s, so a summary of some 7 bytes
 * costs under 1 % of the readings themselves; a chart of a year with 1,000 points has steps of nine
 * hours.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import {
  newByteSink,
  writeByte,
  writeVarint,
  writeDouble,
  writeSignedVarint,
  readByte,
  readVarint,
  readDouble,
  readSignedVarint,
  writtenBytes,
} from './bytes.ts';
import type { ByteSource } from './bytes.ts';
import { findStep, fromInteger, stepOf, toInteger } from './decimal.ts';
import type { Step } from './decimal.ts';
import type { Series } from '../store.ts';

export const BUCKET_MS = 10_800_000;

export interface Bucket {
  /** Which three hours: Unix ms / BUCKET_MS. */
  index: number;
  count: number;
  low: number;
  high: number;
  sum: number;
}

/** Adds one reading that is a number. */
export function addValue(bucket: Bucket, value: number): void {
  bucket.count += 1;
  bucket.sum += value;
  if (value < bucket.low) bucket.low = value;
  if (value > bucket.high) bucket.high = value;
}

export function mergeBucket(bucket: Bucket, more: Bucket): void {
  bucket.count += more.count;
  bucket.sum += more.sum;
  if (more.low < bucket.low) bucket.low = more.low;
  if (more.high > bucket.high) bucket.high = more.high;
}

export function emptyBucket(place: number): Bucket {
  return { index: place, count: 0, low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY, sum: 0 };
}

/** Sums are taken in whole steps where the values have one, so that adding keeps every bit. */
function summarize(series: Series, step: Step | undefined): Bucket[] {
  const buckets: Bucket[] = [];
  let current = emptyBucket(Number.NaN);
  let lastMs = Number.NaN;
  for (let i = 0; i < series.n; i++) {
    const t = series.timeMs[i]!;
    // Of several readings of one moment the first is the chosen one (./columns.ts).
    if (series.fault[i] !== 0 || t === lastMs) continue;
    lastMs = t;
    const place = Math.floor(t / BUCKET_MS);
    if (place !== current.index) {
      current = emptyBucket(place);
      buckets.push(current);
    }
    addValue(current, step ? toInteger(series.value[i]!, step) : series.value[i]!);
  }
  return buckets;
}

const RAW = 255;
const DECIMALS_OFFSET = 8;
const SINGLE = 32;

/** Larger whole numbers, added up over three hours of 10 Hz, would pass 2^53. */
const MAX_WHOLE = 2 ** 36;

/** The summary of ordered readings. */
export function encodeSummary(series: Series): Buffer {
  const found = findStep(series.value, series.n, series.fault);
  const inSteps = found ? summarize(series, found) : [];
  const fits = inSteps.every(({ low, high }) => low >= -MAX_WHOLE && high <= MAX_WHOLE);
  const step = fits ? found : undefined;
  const buckets = step ? inSteps : summarize(series, undefined);
  const sink = newByteSink(64 + buckets.length * 24);
  writeByte(sink, step ? step.decimals + DECIMALS_OFFSET + (step.single ? SINGLE : 0) : RAW);
  writeVarint(sink, buckets.length);
  let place = 0;
  let low = 0;
  for (const bucket of buckets) {
    writeSignedVarint(sink, bucket.index - place);
    writeVarint(sink, bucket.count);
    place = bucket.index;
    if (!step) {
      for (const value of [bucket.low, bucket.high, bucket.sum]) writeDouble(sink, value);
      continue;
    }
    writeSignedVarint(sink, bucket.low - low);
    writeVarint(sink, bucket.high - bucket.low);
    writeVarint(sink, bucket.sum - bucket.low * bucket.count);
    low = bucket.low;
  }
  return deflateRawSync(writtenBytes(sink));
}

/** @throws RangeError or zlib's error where the bytes are not what was written. */
export function decodeSummary(bytes: Buffer): Bucket[] {
  const source: ByteSource = { bytes: inflateRawSync(bytes), offset: 0 };
  const how = readByte(source);
  const raw = how === RAW;
  const decimals = (how & (SINGLE - 1)) - DECIMALS_OFFSET;
  const step = stepOf(raw ? 0 : decimals, !raw && (how & SINGLE) !== 0);
  const exact = stepOf(step.decimals, false);
  const size = readVarint(source);
  const buckets: Bucket[] = [];
  let place = 0;
  let low = 0;
  for (let i = 0; i < size; i++) {
    place += readSignedVarint(source);
    const count = readVarint(source);
    if (raw) {
      buckets.push({
        index: place,
        count,
        low: readDouble(source),
        high: readDouble(source),
        sum: readDouble(source),
      });
      continue;
    }
    low += readSignedVarint(source);
    const high = low + readVarint(source);
    const sum = readVarint(source) + low * count;
    buckets.push({
      index: place,
      count,
      low: fromInteger(low, step),
      high: fromInteger(high, step),
      sum: fromInteger(sum, exact),
    });
  }
  return buckets;
}
