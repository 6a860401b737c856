/**
 * A list of whole numbers as few bytes: the best predictor for it (./predict.ts), its surprises folded to 0, 1, 2 … and coded
 * (./range-code.ts). Lists of one number all along take no bytes for each.
 */
import { putByte, putCount, putSigned, takeByte, takeCount, takeSigned } from './bytes.ts';
import type { Sink, Source } from './bytes.ts';
import { PREDICTORS, predict } from './predict.ts';
import { bitsOf, putCoded, takeCoded } from './range-code.ts';

/** A dearer predictor (they are ordered by their cost) must save this share of the bits to be taken. */
const WORTH = 0.995;

function greatestDivisor(a: number, b: number): number {
  let x = a;
  let y = b;
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** The largest number that divides every distance from the first; 1 where all are the same. */
function unitOf(list: Float64Array, n: number): number {
  let unit = 0;
  for (let i = 1; i < n && unit !== 1; i++) unit = greatestDivisor(Math.abs(list[i]! - list[0]!), unit);
  return unit === 0 ? 1 : unit;
}

function fold(list: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    const value = list[i]!;
    list[i] = value < 0 ? -2 * value - 1 : 2 * value;
  }
}

function unfold(list: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    const value = list[i]!;
    list[i] = value % 2 === 0 ? value / 2 : -(value + 1) / 2;
  }
}

/** Writes the first `n` numbers, each of at most 2^51 in size. */
export function putWholes(sink: Sink, list: Float64Array, n: number): void {
  if (n === 0) return;
  const unit = unitOf(list, n);
  const first = list[0]!;
  const scaled = new Float64Array(n);
  for (let i = 0; i < n; i++) scaled[i] = (list[i]! - first) / unit;
  let best = { which: 0, folded: new Float64Array(n), bits: Number.POSITIVE_INFINITY };
  for (let which = 0; which < PREDICTORS; which++) {
    const folded = new Float64Array(n);
    predict(which, scaled, folded, n, false);
    fold(folded, n);
    const bits = bitsOf(folded, n);
    if (bits < best.bits * WORTH || which === 0) best = { which, folded, bits };
  }
  putByte(sink, best.which);
  putSigned(sink, first);
  putCount(sink, unit);
  putCoded(sink, best.folded, n);
}

/** Reads `n` numbers into `to`, from its start. */
export function takeWholes(source: Source, to: Float64Array, n: number): void {
  if (n === 0) return;
  const which = takeByte(source);
  if (which >= PREDICTORS) throw new RangeError(`Cannot read list: there is no predictor ${which}`);
  const first = takeSigned(source);
  const unit = takeCount(source);
  takeCoded(source, to, n);
  unfold(to, n);
  predict(which, to, to, n, true);
  if (first === 0 && unit === 1) return;
  for (let i = 0; i < n; i++) to[i] = to[i]! * unit + first;
}
