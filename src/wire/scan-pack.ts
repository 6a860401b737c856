/**
 * The short way for the usual JSON pack: from bytes straight to columns, with no object or string made on the way (several times the
 * speed of JSON.parse and checks). It says yes or nothing: on anything unusual or wrong it gives up, and ./pack.ts reads the pack the
 * long way and makes the refusal. What it does read is equal, bit for bit, to the long way's result.
 */
import { BASE_CHANNELS } from './channels.ts';
import { channelOfWord, isUnitWord } from './channel-words.ts';
import { digestOf } from './digest.ts';
import { NOWHERE, numberEnd, numberIn, spaceEnd, wordEnd } from './json-scan.ts';
import { ABSOLUTE_FROM_S, MAX_RECORDS, MAX_TIME_S, VALUE_BOUNDS } from './limits.ts';
import type { Pack } from './messages.ts';
import type { PackSource } from './pack-source.ts';
import { columnsOf, emptyRows } from './rows.ts';
import type { Rows } from './rows.ts';

const QUOTE = 0x22;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN = 0x7b;
const CLOSE = 0x7d;

/** The usual keys: a place for what each holds. */
const N = 0;
const U = 1;
const T = 2;
const V = 3;
const VS = 4;
const VB = 5;
const BN = 6;
const BT = 7;
const BOOT = 8;
const SEQ = 9;
const FIRST = 10;
const UP = 11;
const UNIT_END = 12;
const FAULT = 13;
/** Which keys the record at hand has shown, and which of the pack's own the first record showed: one bit a key. */
const SEEN = 14;
const STAMPED = 15;
const VALUE_BITS = (1 << V) | (1 << VS) | (1 << VB);
const STAMP_BITS = (1 << BN) | (1 << BT) | (1 << BOOT) | (1 << SEQ) | (1 << FIRST) | (1 << UP);

const CONTACT = BASE_CHANNELS.indexOf('contact');
const LOWS = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].low);
const HIGHS = Float64Array.from(BASE_CHANNELS, (base) => VALUE_BOUNDS[base].high);

/** A pack half read: what the first record says of all, and the record at hand. One serves all packs, as rows do. */
const shared = new Float64Array(16);

/** The pack, or undefined where it is not of the usual shape. */
export function scanPack(source: PackSource): Pack | undefined {
  const { bytes, node } = source;
  const f = shared.fill(0);
  const rows = emptyRows();
  let at = spaceEnd(bytes, 0);
  if (bytes[at] !== OPEN_LIST) return undefined;
  do {
    at = scanRecord(bytes, spaceEnd(bytes, at + 1), f);
    if (at === NOWHERE || !isStampRight(bytes, f, node) || !addRow(bytes, f, rows, source.kind))
      return undefined;
    at = spaceEnd(bytes, at);
  } while (bytes[at] === COMMA);
  if (bytes[at] !== CLOSE_LIST || spaceEnd(bytes, at + 1) !== bytes.length || !isNumbered(f))
    return undefined;
  return packOf(f, rows, source);
}

/** Reads one record into `f`; answers where it ends, or NOWHERE. */
function scanRecord(bytes: Uint8Array, from: number, f: Float64Array): number {
  if (bytes[from] !== OPEN) return NOWHERE;
  let at = from;
  let seen = 0;
  f[T] = 0;
  f[FAULT] = 0;
  do {
    at = spaceEnd(bytes, at + 1);
    const keyEnd = bytes[at] === QUOTE ? wordEnd(bytes, at + 1) : NOWHERE;
    const key = keyEnd === NOWHERE ? NOWHERE : keyOf(bytes, at + 1, keyEnd);
    if (key === NOWHERE || (seen & (1 << key)) !== 0) return NOWHERE;
    seen |= 1 << key;
    at = spaceEnd(bytes, keyEnd + 1);
    if (bytes[at] !== COLON) return NOWHERE;
    at = scanField(bytes, spaceEnd(bytes, at + 1), key, f);
    if (at === NOWHERE) return NOWHERE;
    at = spaceEnd(bytes, at);
  } while (bytes[at] === COMMA);
  f[SEEN] = seen;
  return bytes[at] === CLOSE ? at + 1 : NOWHERE;
}

/** The key in these bytes, told by its length and letters; NOWHERE where it is no usual one. */
function keyOf(bytes: Uint8Array, from: number, to: number): number {
  const a = bytes[from]!;
  switch (to - from) {
    case 1:
      return a === 0x6e ? N : a === 0x76 ? V : a === 0x74 ? T : a === 0x75 ? U : NOWHERE;
    case 2:
      return keyOfTwo(a, bytes[from + 1]!);
    case 3:
      return a === 0x73 && bytes[from + 1] === 0x65 && bytes[from + 2] === 0x71 ? SEQ : NOWHERE;
    case 4:
      return isBoot(bytes, from) ? BOOT : NOWHERE;
    case 5:
      return isFirst(bytes, from) ? FIRST : NOWHERE;
    default:
      return NOWHERE;
  }
}

function keyOfTwo(a: number, b: number): number {
  if (a === 0x62) return b === 0x6e ? BN : b === 0x74 ? BT : NOWHERE;
  if (a === 0x76) return b === 0x73 ? VS : b === 0x62 ? VB : NOWHERE;
  return a === 0x75 && b === 0x70 ? UP : NOWHERE;
}

function isBoot(b: Uint8Array, i: number): boolean {
  return b[i] === 0x62 && b[i + 1] === 0x6f && b[i + 2] === 0x6f && b[i + 3] === 0x74;
}

function isFirst(b: Uint8Array, i: number): boolean {
  return b[i] === 0x66 && b[i + 1] === 0x69 && b[i + 2] === 0x72 && b[i + 3] === 0x73 && b[i + 4] === 0x74;
}

/** Reads a value into its place in `f`; answers where it ends, or NOWHERE. */
function scanField(bytes: Uint8Array, from: number, key: number, f: Float64Array): number {
  if (key === VB) return scanBoolean(bytes, from, f);
  if (bytes[from] !== QUOTE) {
    const to = numberEnd(bytes, from);
    const value = numberIn(bytes, from, to);
    f[key] = value;
    return Number.isNaN(value) || key === N || key === U || key === VS || key === BN ? NOWHERE : to;
  }
  const to = wordEnd(bytes, from + 1);
  return to !== NOWHERE && keepWord(bytes, from + 1, to, key, f) ? to + 1 : NOWHERE;
}

function keepWord(bytes: Uint8Array, from: number, to: number, key: number, f: Float64Array): boolean {
  if (key === N) {
    const code = channelOfWord(bytes, from, to);
    f[N] = code;
    return code !== NOWHERE;
  }
  f[key] = from;
  if (key === U) f[UNIT_END] = to;
  else if (key === VS) f[FAULT] = faultOf(bytes, from, to);
  else return key === BN && bytes[to - 1] === COLON;
  return key === U || f[FAULT] !== 0;
}

function faultOf(bytes: Uint8Array, from: number, to: number): number {
  const word = to - from > 4 ? '' : String.fromCharCode(...bytes.subarray(from, to));
  return word === 'low' ? 1 : word === 'high' ? 2 : word === 'bad' ? 3 : 0;
}

function scanBoolean(b: Uint8Array, i: number, f: Float64Array): number {
  const isTrue = b[i] === 0x74;
  f[V] = isTrue ? 1 : 0;
  if (isTrue) return b[i + 1] === 0x72 && b[i + 2] === 0x75 && b[i + 3] === 0x65 ? i + 4 : NOWHERE;
  const isFalse =
    b[i] === 0x66 && b[i + 1] === 0x61 && b[i + 2] === 0x6c && b[i + 3] === 0x73 && b[i + 4] === 0x65;
  return isFalse ? i + 5 : NOWHERE;
}

/** The pack's own fields stand on the first record of a usual pack and on no other, and its base name is the topic's node. */
function isStampRight(bytes: Uint8Array, f: Float64Array, node: string): boolean {
  const stamps = f[SEEN]! & STAMP_BITS;
  if (f[STAMPED] !== 0) return stamps === 0;
  f[STAMPED] = stamps;
  const from = f[BN]!;
  if (
    (stamps & (1 << BN)) === 0 ||
    bytes[from + node.length] !== COLON ||
    bytes[from + node.length + 1] !== QUOTE
  )
    return false;
  for (let i = 0; i < node.length; i++) if (bytes[from + i] !== node.charCodeAt(i)) return false;
  return true;
}

function addRow(bytes: Uint8Array, f: Float64Array, rows: Rows, kind: Pack['kind']): boolean {
  const seen = f[SEEN]!;
  const code = f[N]!;
  const base = code & 15;
  const value = seen & VALUE_BITS;
  const isFault = value === 1 << VS;
  if (rows.n === MAX_RECORDS || (seen & (1 << N)) === 0 || (kind === 'start' && base > 2)) return false;
  if (!isFault && value !== (base === CONTACT ? 1 << VB : 1 << V)) return false;
  if ((seen & (1 << U)) !== 0 && base !== CONTACT && !isUnitWord(bytes, f[U]!, f[UNIT_END]!, code))
    return false;
  const v = isFault ? Number.NaN : f[V]!;
  if (!isFault && !(v >= LOWS[base]! && v <= HIGHS[base]!)) return false;
  const timeS = f[BT]! + f[T]!;
  if (!isTimeUsual(f, timeS)) return false;
  const at = rows.n++;
  rows.code[at] = code;
  rows.timeMs[at] = Math.round(timeS * 1000) + 0;
  rows.value[at] = v + 0;
  rows.fault[at] = f[FAULT]!;
  return true;
}

/** All times on the clock that the first record's base time names. */
function isTimeUsual(f: Float64Array, timeS: number): boolean {
  const withUp = (f[STAMPED]! & (1 << UP)) !== 0;
  if (f[BT]! >= ABSOLUTE_FROM_S) return timeS >= ABSOLUTE_FROM_S && timeS <= MAX_TIME_S && !withUp;
  return timeS < ABSOLUTE_FROM_S && timeS >= -MAX_TIME_S && (!withUp || timeS <= 0);
}

/** boot and seq both or neither, and in their ranges. */
function isNumbered(f: Float64Array): boolean {
  const stamped = f[STAMPED]!;
  if ((stamped & (1 << UP)) !== 0 && !(f[UP]! >= 0 && f[UP]! <= MAX_TIME_S)) return false;
  if ((stamped & ((1 << BOOT) | (1 << SEQ) | (1 << FIRST))) === 0) return true;
  if (
    (stamped & (1 << BOOT)) === 0 ||
    (stamped & (1 << SEQ)) === 0 ||
    !isCount(f[BOOT]!) ||
    !isCount(f[SEQ]!)
  )
    return false;
  return (stamped & (1 << FIRST)) === 0 || (isCount(f[FIRST]!) && f[FIRST]! <= f[SEQ]!);
}

function isCount(value: number): boolean {
  return value >= 1 && Number.isSafeInteger(value);
}

function packOf(f: Float64Array, rows: Rows, { node, kind, bytes }: PackSource): Pack {
  const stamped = f[STAMPED]!;
  const withUp = (stamped & (1 << UP)) !== 0;
  const clock = f[BT]! >= ABSOLUTE_FROM_S ? 'utc' : withUp ? 'up' : 'arrival';
  const pack: Pack = { node, kind, clock, columns: columnsOf(rows), digest: digestOf(bytes) };
  if ((stamped & (1 << BOOT)) !== 0) {
    pack.boot = f[BOOT]!;
    pack.seq = f[SEQ]!;
  }
  if ((stamped & (1 << FIRST)) !== 0) pack.first = f[FIRST]!;
  if (withUp) pack.upMs = Math.round(f[UP]! * 1000);
  return pack;
}
