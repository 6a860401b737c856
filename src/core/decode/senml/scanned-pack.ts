/**
 * What the short ways of reading a pack share, whatever its bytes are: a record's fields
 * (./scan-fields.ts) are judged by the contract and become a row. They say yes or no: on anything
 * unusual or wrong ./pack.ts reads the pack the long way and makes the refusal. What a short way
 * does read is equal, bit for bit, to the long way's result.
 */
import { VALUE_BOUNDS } from '../../domain/channel-bounds.ts';
import { BASE_CHANNELS, placeOf, isCurrent } from '../../domain/channels.ts';
import { ABSOLUTE_FROM_S, MAX_RECORDS, MAX_TIME_S } from '../limits.ts';
import type { Pack } from '../messages.ts';
import type { PackSource } from '../wire-format.ts';
import { isUnitBytes } from './channel-bytes.ts';
import { digestOf } from './digest.ts';
import { columnsOf } from './rows.ts';
import type { Rows } from './rows.ts';
import {
  BN,
  BOOT,
  BT,
  FAULT,
  FIRST,
  HEADER_BITS_SEEN,
  N,
  NAME_END,
  SEEN_BITS,
  SEQ,
  T,
  U,
  UNIT_END,
  UP,
  V,
  VB,
  VS,
  bitsOf,
  hasField,
} from './scan-fields.ts';

const COLON = 0x3a;

const NUMBER_BITS = bitsOf(V);
const FAULT_BITS = bitsOf(VS);
const CONTACT_BITS = bitsOf(VB);
const VALUE_BITS = bitsOf(V, VS, VB);
const HEADER_BITS = bitsOf(BN, BT, BOOT, SEQ, FIRST, UP);

const CONTACT = BASE_CHANNELS.indexOf('contact');
const MIN_VALUES = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].low);
const MAX_VALUES = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].high);

/** Adds the record in `f` to the rows, after a check of all that the contract says of it. */
export function addRecord({ bytes, node, kind }: PackSource, f: Float64Array, rows: Rows): boolean {
  if (!isHeaderValid(bytes, f, node)) return false;
  const seen = f[SEEN_BITS]!;
  const code = f[N]!;
  const base = placeOf(code);
  const value = seen & VALUE_BITS;
  const isFault = value === FAULT_BITS;
  if (!hasField(seen, N) || (kind === 'start' && !isCurrent(code))) return false;
  if (!isFault && value !== (base === CONTACT ? CONTACT_BITS : NUMBER_BITS)) return false;
  if (hasField(seen, U) && base !== CONTACT && !isUnitBytes(bytes, f[U]!, f[UNIT_END]!, code)) return false;
  return addRow(f, rows, code, isFault ? Number.NaN : f[V]!, f[FAULT]!);
}

/** Adds a reading, unless its value or its time is one for the long way. */
export function addRow(f: Float64Array, rows: Rows, code: number, value: number, fault: number): boolean {
  const at = rows.n;
  const base = placeOf(code);
  const timeS = f[BT]! + f[T]!;
  if (at === MAX_RECORDS || !isTimeConsistent(f, timeS)) return false;
  if (fault === 0 && !(value >= MIN_VALUES[base]! && value <= MAX_VALUES[base]!)) return false;
  rows.code[at] = code;
  rows.timeMs[at] = Math.round(timeS * 1000) + 0;
  rows.value[at] = value + 0;
  rows.fault[at] = fault;
  rows.n = at + 1;
  return true;
}

/**
 * The pack's own fields stand on the first record of a usual pack and on no other, and its base
 * name is the topic's node.
 */
function isHeaderValid(bytes: Uint8Array, f: Float64Array, node: string): boolean {
  const headerBits = f[SEEN_BITS]! & HEADER_BITS;
  if (f[HEADER_BITS_SEEN] !== 0) return headerBits === 0;
  f[HEADER_BITS_SEEN] = headerBits;
  const from = f[BN]!;
  const colonAt = from + node.length;
  if (!hasField(headerBits, BN) || f[NAME_END] !== colonAt + 1 || bytes[colonAt] !== COLON) return false;
  for (let i = 0; i < node.length; i++) if (bytes[from + i] !== node.charCodeAt(i)) return false;
  return true;
}

/** All times on the clock that the first record's base time names. */
function isTimeConsistent(f: Float64Array, timeS: number): boolean {
  const withUp = hasField(f[HEADER_BITS_SEEN]!, UP);
  if (f[BT]! >= ABSOLUTE_FROM_S) return timeS >= ABSOLUTE_FROM_S && timeS <= MAX_TIME_S && !withUp;
  return timeS < ABSOLUTE_FROM_S && timeS >= -MAX_TIME_S && (!withUp || timeS <= 0);
}

/** boot and seq both or neither, and in their ranges. */
function isNumberingValid(f: Float64Array): boolean {
  const headerBits = f[HEADER_BITS_SEEN]!;
  if (hasField(headerBits, UP) && !(f[UP]! >= 0 && f[UP]! <= MAX_TIME_S)) return false;
  if (!hasField(headerBits, BOOT) && !hasField(headerBits, SEQ) && !hasField(headerBits, FIRST)) return true;
  if (!hasField(headerBits, BOOT) || !hasField(headerBits, SEQ) || !isCount(f[BOOT]!) || !isCount(f[SEQ]!))
    return false;
  return !hasField(headerBits, FIRST) || (isCount(f[FIRST]!) && f[FIRST]! <= f[SEQ]!);
}

function isCount(value: number): boolean {
  return value >= 1 && Number.isSafeInteger(value);
}

/** The pack of all records, or undefined where its numbering is one for the long way. */
export function scannedPack(
  f: Float64Array,
  rows: Rows,
  { node, kind, bytes }: PackSource,
): Pack | undefined {
  if (!isNumberingValid(f)) return undefined;
  const headerBits = f[HEADER_BITS_SEEN]!;
  const withUp = hasField(headerBits, UP);
  const clock = f[BT]! >= ABSOLUTE_FROM_S ? 'utc' : withUp ? 'up' : 'arrival';
  const pack: Pack = { node, kind, clock, columns: columnsOf(rows), digest: digestOf(bytes) };
  if (hasField(headerBits, BOOT)) {
    pack.boot = f[BOOT]!;
    pack.seq = f[SEQ]!;
  }
  if (hasField(headerBits, FIRST)) pack.first = f[FIRST]!;
  if (withUp) pack.upMs = Math.round(f[UP]! * 1000);
  return pack;
}
