/**
 * Records of one pack repeat: `{"n":"current","u":"A","t":1,"v":7.9}` comes again with other
 * digits. A record that was read once is a mould for those after it: where all bytes around the
 * digits are the same, only the digits are read. A record that doesn't fit is read letter by
 * letter.
 */
import { NOT_FOUND, numberEnd, parseNumberBytes } from '../json/json-scan.ts';
import { MAX_RECORDS } from '../limits.ts';
import { T, T_FROM, T_TO, V, V_FROM, V_TO } from '../senml/scan-fields.ts';

/**
 * Where record i starts and ends, and where the digits of its time (before its value) and of its
 * value stand.
 */
const starts = new Int32Array(MAX_RECORDS);
const timeFrom = new Int32Array(MAX_RECORDS);
const timeTo = new Int32Array(MAX_RECORDS);
const valueFrom = new Int32Array(MAX_RECORDS);
const valueTo = new Int32Array(MAX_RECORDS);
const ends = new Int32Array(MAX_RECORDS);

/** Keeps record i, just read with a time and then a value, as a mould. */
export function saveTemplate(i: number, start: number, end: number, f: Float64Array): void {
  starts[i] = start;
  timeFrom[i] = f[T_FROM]!;
  timeTo[i] = f[T_TO]!;
  valueFrom[i] = f[V_FROM]!;
  valueTo[i] = f[V_TO]!;
  ends[i] = end;
}

/** Record i is none that others may repeat. */
export function clearTemplate(i: number): void {
  ends[i] = 0;
}

/**
 * Reads the record at `at` in the mould of record i; answers where it ends, or NOWHERE where it
 * doesn't fit.
 */
export function matchTemplate(
  bytes: Uint8Array,
  view: DataView,
  at: number,
  i: number,
  f: Float64Array,
): number {
  if (ends[i] === 0) return NOT_FOUND;
  const tFrom = at + timeFrom[i]! - starts[i]!;
  if (!isSame(view, at, starts[i]!, timeFrom[i]!)) return NOT_FOUND;
  const tTo = numberEnd(bytes, tFrom);
  const vFrom = tTo + valueFrom[i]! - timeTo[i]!;
  if (!isSame(view, tTo, timeTo[i]!, valueFrom[i]!)) return NOT_FOUND;
  const vTo = numberEnd(bytes, vFrom);
  if (!isSame(view, vTo, valueTo[i]!, ends[i]!)) return NOT_FOUND;
  const t = parseNumberBytes(bytes, tFrom, tTo);
  const v = parseNumberBytes(bytes, vFrom, vTo);
  f[T] = t;
  f[V] = v;
  f[T_FROM] = tFrom;
  f[T_TO] = tTo;
  f[V_FROM] = vFrom;
  f[V_TO] = vTo;
  return Number.isNaN(t) || Number.isNaN(v) ? NOT_FOUND : vTo + ends[i]! - valueTo[i]!;
}

/**
 * True where the bytes from `at` on are those from `from` to `to`; four at a time, and the last
 * four once more where they overlap.
 */
function isSame(view: DataView, at: number, from: number, to: number): boolean {
  const length = to - from;
  if (at + length > view.byteLength) return false;
  if (length < 4) {
    for (let i = 0; i < length; i++) if (view.getUint8(at + i) !== view.getUint8(from + i)) return false;
    return true;
  }
  for (let i = 0; i < length - 4; i += 4) if (view.getInt32(at + i) !== view.getInt32(from + i)) return false;
  return view.getInt32(at + length - 4) === view.getInt32(to - 4);
}
