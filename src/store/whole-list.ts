/**
 * A list of whole numbers as few bytes: the best predictor for it (./predict.ts), its surprises coded (./range-code.ts). Lists of one number all along take no bytes for each.
 */
import { putByte, putCount, putSigned, takeByte, takeCount, takeSigned } from './bytes.ts';
import type { Sink, Source } from './bytes.ts';
import type { Step } from './decimal.ts';
import { PREDICTORS, restore, surprise } from './predict.ts';
import { NARROW, WIDE, bitsOf, putCoded, takeCoded } from './range-code.ts';
import type { Width } from './range-code.ts';

/** A predictor must come down to this share of the bits of the best before it: they are ordered by their reading time. */
const WORTH = 0.995;

function greatestDivisor(a: number, b: number): number {
  let x = a;
  let y = b;
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** Enough to find the middle number of a list within what matters. */
const SAMPLE = 512;

/** A number in the middle of the list: small numbers around it are the commonest, and 0 is what is expected at first. */
function middleOf(list: Float64Array, n: number): number {
  const sample = new Float64Array(Math.min(n, SAMPLE));
  for (let i = 0; i < sample.length; i++) sample[i] = list[Math.floor((i * n) / sample.length)]!;
  return sample.sort()[sample.length >> 1]!;
}

/** The largest number that divides every distance from `base`; 1 where all are the same. */
function unitOf(list: Float64Array, n: number, base: number): number {
  let unit = 0;
  for (let i = 0; i < n && unit !== 1; i++) unit = greatestDivisor(Math.abs(list[i]! - base), unit);
  return unit === 0 ? 1 : unit;
}

/** Trying all ways on a part is eight times cheaper; four stretches of it show rest and run. */
const TRIED_SHARE = 1 / 8;
const TRIED_LEAST = 512;
const STRETCHES = 4;

/** A wide table pays in long lists only. */
const WIDE_FROM = 8_192;

function partOf(list: Float64Array, n: number): Float64Array {
  const size = Math.max(TRIED_LEAST, Math.ceil(n * TRIED_SHARE));
  if (n <= size) return list.subarray(0, n);
  const stretch = Math.ceil(size / STRETCHES);
  const part = new Float64Array(stretch * STRETCHES);
  for (let i = 0; i < STRETCHES; i++) {
    const start = Math.floor((i * (n - stretch)) / (STRETCHES - 1));
    part.set(list.subarray(start, start + stretch), i * stretch);
  }
  return part;
}

/** The predictor and width with the fewest bits, as tried on a part of the list. */
function bestWay(list: Float64Array, n: number): { which: number; width: Width } {
  const part = partOf(list, n);
  const surprises = new Float64Array(part.length);
  const widths = n >= WIDE_FROM ? ([NARROW, WIDE] as const) : ([NARROW] as const);
  let best: { which: number; width: Width } = { which: 0, width: NARROW };
  let least = Number.POSITIVE_INFINITY;
  for (let which = 0; which < PREDICTORS; which++) {
    surprise(which, part, surprises, part.length);
    for (const width of widths) {
      const bits = bitsOf(surprises, part.length, n, width);
      if (bits >= least * WORTH) continue;
      best = { which, width };
      least = bits;
    }
  }
  return best;
}

/** Writes the first `n` numbers, each of at most 2^51 in size. */
export function putWholes(sink: Sink, list: Float64Array, n: number): void {
  if (n === 0) return;
  const base = middleOf(list, n);
  const unit = unitOf(list, n, base);
  const scaled = new Float64Array(n);
  for (let i = 0; i < n; i++) scaled[i] = (list[i]! - base) / unit;
  const { which, width } = bestWay(scaled, n);
  const surprises = new Float64Array(n);
  surprise(which, scaled, surprises, n);
  putByte(sink, which);
  putSigned(sink, base);
  putCount(sink, unit);
  putCoded(sink, surprises, n, width);
}

/** Numbers read are multiplied by `down` and divided by `up`: the step of ./decimal.ts. */
export type Scale = Pick<Step, 'up' | 'down'>;

const AS_THEY_ARE: Scale = { up: 1, down: 1 };

/** Reads `n` numbers into `to`, from its start, scaled in the same pass. */
export function takeWholes(source: Source, to: Float64Array, n: number, scale: Scale = AS_THEY_ARE): void {
  if (n === 0) return;
  const which = takeByte(source);
  if (which >= PREDICTORS) throw new RangeError(`Cannot read list: there is no predictor ${which}`);
  const base = takeSigned(source);
  const unit = takeCount(source);
  takeCoded(source, to, n);
  restore(which, to, n);
  const { up, down } = scale;
  for (let i = 0; i < n; i++) to[i] = ((to[i]! * unit + base) * down) / up;
}
