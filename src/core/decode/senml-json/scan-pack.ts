/**
 * The short way for the usual JSON pack: from bytes straight to columns, with no object or string
 * made on the way (several times the speed of JSON.parse and checks). It says yes or nothing: on
 * anything unusual or wrong it gives up, and ../senml/pack.ts reads the pack the long way and makes
 * the refusal. What it does read is equal, bit for bit, to the long way's result.
 */
import { VALUE_BOUNDS } from '../../domain/channel-bounds.ts';
import { BASE_CHANNELS, placeOf, isCurrent } from '../../domain/channels.ts';
import { isUnitBytes } from './channel-bytes.ts';
import { digestOf } from '../senml/digest.ts';
import { NOT_FOUND, spaceEnd } from '../json/json-scan.ts';
import { ABSOLUTE_FROM_S, MAX_RECORDS, MAX_TIME_S } from '../limits.ts';
import type { Pack } from '../messages.ts';
import { matchTemplate, saveTemplate, clearTemplate } from './record-template.ts';
import type { PackSource } from '../wire-format.ts';
import { columnsOf, resetRows } from '../senml/rows.ts';
import type { Rows } from '../senml/rows.ts';
import {
  BN,
  BOOT,
  BT,
  FAULT,
  FIRST,
  N,
  FIELD_COUNT,
  SEEN_BITS,
  SEQ,
  HEADER_BITS_SEEN,
  T,
  T_FROM,
  U,
  UNIT_END,
  UP,
  V,
  VB,
  VS,
  V_FROM,
  bitsOf,
  hasField,
  withoutField,
} from './scan-fields.ts';
import { scanRecord } from './scan-record.ts';

const QUOTE = 0x22;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;

const NUMBER_BITS = bitsOf(V);
const FAULT_BITS = bitsOf(VS);
const CONTACT_BITS = bitsOf(VB);
const VALUE_BITS = bitsOf(V, VS, VB);
const HEADER_BITS = bitsOf(BN, BT, BOOT, SEQ, FIRST, UP);

/** A record that others may repeat: name, time and value, with or without a unit. */
const TEMPLATE_BITS = bitsOf(N, T, V);
/** The longest turn of channels that is looked for: more than any usual node has. */
const MAX_CHANNEL_PERIOD = 16;

const CONTACT = BASE_CHANNELS.indexOf('contact');
const MIN_VALUES = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].low);
const MAX_VALUES = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].high);

/**
 * A pack half read: what the first record says of all, and the record at hand. One serves all
 * packs, as rows do.
 */
const sharedFields = new Float64Array(FIELD_COUNT);

/** The pack, or undefined where it is not of the usual shape. */
export function scanPack(source: PackSource): Pack | undefined {
  const { bytes } = source;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const f = sharedFields.fill(0);
  const rows = resetRows();
  let at = spaceEnd(bytes, 0);
  if (bytes[at] !== OPEN_LIST) return undefined;
  let period = 0;
  do {
    const from = spaceEnd(bytes, at + 1);
    at = period === 0 ? NOT_FOUND : repeatRecord(bytes, view, from, period, f, rows);
    if (at === NOT_FOUND) {
      at = readRecord(source, from, f, rows);
      period = channelPeriod(rows);
    }
    if (at === NOT_FOUND) return undefined;
    at = spaceEnd(bytes, at);
  } while (bytes[at] === COMMA);
  if (bytes[at] !== CLOSE_LIST || spaceEnd(bytes, at + 1) !== bytes.length || !isNumberingValid(f))
    return undefined;
  return packOf(f, rows, source);
}

/** Reads a record as a repeat of the one a turn of channels before. */
function repeatRecord(
  bytes: Uint8Array,
  view: DataView,
  from: number,
  period: number,
  f: Float64Array,
  rows: Rows,
): number {
  const previous = rows.n - period;
  const to = matchTemplate(bytes, view, from, previous, f);
  if (to === NOT_FOUND || !addRow(f, rows, rows.code[previous]!, f[V]!, 0)) return NOT_FOUND;
  saveTemplate(rows.n - 1, from, to, f);
  return to;
}

/**
 * How many records back the channel of the last one came before: so many channels are likely to
 * come in turn. 0: it didn't.
 */
function channelPeriod({ n, code }: Rows): number {
  const last = n - 1;
  const oldest = Math.max(last - MAX_CHANNEL_PERIOD, 0);
  for (let i = last - 1; i >= oldest; i--) if (code[i] === code[last]) return last - i;
  return 0;
}

/** Reads a record letter by letter and checks all that the contract says of it. */
function readRecord({ bytes, node, kind }: PackSource, from: number, f: Float64Array, rows: Rows): number {
  const to = scanRecord(bytes, from, f);
  if (to === NOT_FOUND || !isHeaderValid(bytes, f, node)) return NOT_FOUND;
  const seen = f[SEEN_BITS]!;
  const code = f[N]!;
  const base = placeOf(code);
  const value = seen & VALUE_BITS;
  const isFault = value === FAULT_BITS;
  if (!hasField(seen, N) || (kind === 'start' && !isCurrent(code))) return NOT_FOUND;
  if (!isFault && value !== (base === CONTACT ? CONTACT_BITS : NUMBER_BITS)) return NOT_FOUND;
  if (hasField(seen, U) && base !== CONTACT && !isUnitBytes(bytes, f[U]!, f[UNIT_END]!, code))
    return NOT_FOUND;
  if (!addRow(f, rows, code, isFault ? Number.NaN : f[V]!, f[FAULT]!)) return NOT_FOUND;
  if (withoutField(seen, U) === TEMPLATE_BITS && f[T_FROM]! < f[V_FROM]!)
    saveTemplate(rows.n - 1, from, to, f);
  else clearTemplate(rows.n - 1);
  return to;
}

/** Adds a reading, unless its value or its time is one for the long way. */
function addRow(f: Float64Array, rows: Rows, code: number, value: number, fault: number): boolean {
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
  if (
    !hasField(headerBits, BN) ||
    bytes[from + node.length] !== COLON ||
    bytes[from + node.length + 1] !== QUOTE
  )
    return false;
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

function packOf(f: Float64Array, rows: Rows, { node, kind, bytes }: PackSource): Pack {
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
