/**
 * A list of whole numbers as few bytes: the best predictor for it (./predict.ts), its surprises
 * coded (./entropy-code.ts). Lists of one number all along take no bytes for each.
 */
import {
  writeByte,
  writeVarint,
  writeSignedVarint,
  readByte,
  readVarint,
  readSignedVarint,
} from './bytes.ts';
import type { ByteSink, ByteSource } from './bytes.ts';
import type { Step } from './decimal.ts';
import { PREDICTOR_COUNT, restoreValues, computeResiduals } from './predict.ts';
import { NARROW_BITS, WIDE_BITS, estimateBits, encodeIntegers, decodeIntegers } from './entropy-code.ts';
import type { TableWidth } from './entropy-code.ts';

/**
 * A predictor must come down to this share of the bits of the best before it: they are ordered by
 * their reading time.
 */
const MIN_IMPROVEMENT = 0.995;

function greatestDivisor(a: number, b: number): number {
  let x = a;
  let y = b;
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** Enough to find the middle number of a list within what matters. */
const MEDIAN_SAMPLE = 512;

/**
 * A number in the middle of the list: small numbers around it are the commonest, and 0 is what is
 * expected at first.
 */
function approximateMedian(list: Float64Array, n: number): number {
  const sample = new Float64Array(Math.min(n, MEDIAN_SAMPLE));
  for (let i = 0; i < sample.length; i++) sample[i] = list[Math.floor((i * n) / sample.length)]!;
  return sample.sort()[sample.length >> 1]!;
}

/** The largest number that divides every distance from `base`; 1 where all are the same. */
function commonDivisor(list: Float64Array, n: number, base: number): number {
  let unit = 0;
  for (let i = 0; i < n && unit !== 1; i++) unit = greatestDivisor(Math.abs(list[i]! - base), unit);
  return unit === 0 ? 1 : unit;
}

/** Trying all ways on a part is eight times cheaper; four stretches of it show rest and run. */
const SAMPLE_FRACTION = 1 / 8;
const MIN_SAMPLE = 512;
const SAMPLE_SEGMENTS = 4;

/** A wide table pays in long lists only. */
const MIN_WIDE_LENGTH = 8_192;

function sampleOf(list: Float64Array, n: number): Float64Array {
  const size = Math.max(MIN_SAMPLE, Math.ceil(n * SAMPLE_FRACTION));
  if (n <= size) return list.subarray(0, n);
  const segmentLength = Math.ceil(size / SAMPLE_SEGMENTS);
  const part = new Float64Array(segmentLength * SAMPLE_SEGMENTS);
  for (let i = 0; i < SAMPLE_SEGMENTS; i++) {
    const start = Math.floor((i * (n - segmentLength)) / (SAMPLE_SEGMENTS - 1));
    part.set(list.subarray(start, start + segmentLength), i * segmentLength);
  }
  return part;
}

/** The predictor and width with the fewest bits, as tried on a part of the list. */
function chooseCoding(list: Float64Array, n: number): { which: number; width: TableWidth } {
  const part = sampleOf(list, n);
  const residuals = new Float64Array(part.length);
  const widths = n >= MIN_WIDE_LENGTH ? ([NARROW_BITS, WIDE_BITS] as const) : ([NARROW_BITS] as const);
  let best: { which: number; width: TableWidth } = { which: 0, width: NARROW_BITS };
  let least = Number.POSITIVE_INFINITY;
  for (let which = 0; which < PREDICTOR_COUNT; which++) {
    computeResiduals(which, part, residuals, part.length);
    for (const width of widths) {
      const bits = estimateBits(residuals, part.length, n, width);
      if (bits >= least * MIN_IMPROVEMENT) continue;
      best = { which, width };
      least = bits;
    }
  }
  return best;
}

/** Writes the first `n` numbers, each of at most 2^51 in size. */
export function writeIntegers(sink: ByteSink, list: Float64Array, n: number): void {
  if (n === 0) return;
  const base = approximateMedian(list, n);
  const unit = commonDivisor(list, n, base);
  const scaled = new Float64Array(n);
  for (let i = 0; i < n; i++) scaled[i] = (list[i]! - base) / unit;
  const { which, width } = chooseCoding(scaled, n);
  const residuals = new Float64Array(n);
  computeResiduals(which, scaled, residuals, n);
  writeByte(sink, which);
  writeSignedVarint(sink, base);
  writeVarint(sink, unit);
  encodeIntegers(sink, residuals, n, width);
}

/** Numbers read are multiplied by `down` and divided by `up`: the step of ./decimal.ts. */
export type Scale = Pick<Step, 'up' | 'down'>;

const UNSCALED: Scale = { up: 1, down: 1 };

/** Reads `n` numbers into `to`, from its start, scaled in the same pass. */
export function readIntegers(source: ByteSource, to: Float64Array, n: number, scale: Scale = UNSCALED): void {
  if (n === 0) return;
  const which = readByte(source);
  if (which >= PREDICTOR_COUNT) throw new RangeError(`Cannot read list: there is no predictor ${which}`);
  const base = readSignedVarint(source);
  const unit = readVarint(source);
  decodeIntegers(source, to, n);
  restoreValues(which, to, n);
  const { up, down } = scale;
  for (let i = 0; i < n; i++) to[i] = ((to[i]! * unit + base) * down) / up;
}
