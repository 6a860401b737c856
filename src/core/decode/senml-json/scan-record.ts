/**
 * One record of a usual JSON pack, read letter by letter into ../senml/scan-fields.ts: plain keys
 * once each, plain numbers and words. Which of them must be there, and what they may say, is judged
 * by ../senml/scanned-pack.ts.
 */
import { channelFromBytes } from '../senml/channel-bytes.ts';
import { NOT_FOUND, numberEnd, parseNumberBytes, spaceEnd, plainStringEnd } from '../json/json-scan.ts';
import {
  BN,
  BOOT,
  BT,
  FAULT,
  FIRST,
  N,
  NAME_END,
  SEEN_BITS,
  SEQ,
  T,
  T_FROM,
  T_TO,
  U,
  UNIT_END,
  UP,
  V,
  VB,
  VS,
  V_FROM,
  V_TO,
  faultFromBytes,
  hasField,
  withField,
} from '../senml/scan-fields.ts';

const QUOTE = 0x22;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN = 0x7b;
const CLOSE = 0x7d;

/** Reads one record into `f`; answers where it ends, or NOWHERE. */
export function scanRecord(bytes: Uint8Array, from: number, f: Float64Array): number {
  if (bytes[from] !== OPEN) return NOT_FOUND;
  let at = from;
  let seen = 0;
  f[T] = 0;
  f[FAULT] = 0;
  do {
    at = spaceEnd(bytes, at + 1);
    const keyEnd = bytes[at] === QUOTE ? plainStringEnd(bytes, at + 1) : NOT_FOUND;
    const key = keyEnd === NOT_FOUND ? NOT_FOUND : keyOf(bytes, at + 1, keyEnd);
    if (key === NOT_FOUND || hasField(seen, key)) return NOT_FOUND;
    seen = withField(seen, key);
    at = spaceEnd(bytes, keyEnd + 1);
    if (bytes[at] !== COLON) return NOT_FOUND;
    at = scanField(bytes, spaceEnd(bytes, at + 1), key, f);
    if (at === NOT_FOUND) return NOT_FOUND;
    at = spaceEnd(bytes, at);
  } while (bytes[at] === COMMA);
  f[SEEN_BITS] = seen;
  return bytes[at] === CLOSE ? at + 1 : NOT_FOUND;
}

/** The key in these bytes, told by its length and letters; NOWHERE where it is no usual one. */
function keyOf(bytes: Uint8Array, from: number, to: number): number {
  const a = bytes[from]!;
  switch (to - from) {
    case 1:
      return a === 0x6e ? N : a === 0x76 ? V : a === 0x74 ? T : a === 0x75 ? U : NOT_FOUND;
    case 2:
      return keyOfTwo(a, bytes[from + 1]!);
    case 3:
      return a === 0x73 && bytes[from + 1] === 0x65 && bytes[from + 2] === 0x71 ? SEQ : NOT_FOUND;
    case 4:
      return isBoot(bytes, from) ? BOOT : NOT_FOUND;
    case 5:
      return isFirst(bytes, from) ? FIRST : NOT_FOUND;
    default:
      return NOT_FOUND;
  }
}

function keyOfTwo(a: number, b: number): number {
  if (a === 0x62) return b === 0x6e ? BN : b === 0x74 ? BT : NOT_FOUND;
  if (a === 0x76) return b === 0x73 ? VS : b === 0x62 ? VB : NOT_FOUND;
  return a === 0x75 && b === 0x70 ? UP : NOT_FOUND;
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
    const value = parseNumberBytes(bytes, from, to);
    f[key] = value;
    if (key === T) {
      f[T_FROM] = from;
      f[T_TO] = to;
    } else if (key === V) {
      f[V_FROM] = from;
      f[V_TO] = to;
    }
    return Number.isNaN(value) || key === N || key === U || key === VS || key === BN ? NOT_FOUND : to;
  }
  const to = plainStringEnd(bytes, from + 1);
  return to !== NOT_FOUND && scanString(bytes, from + 1, to, key, f) ? to + 1 : NOT_FOUND;
}

function scanString(bytes: Uint8Array, from: number, to: number, key: number, f: Float64Array): boolean {
  if (key === N) {
    const code = channelFromBytes(bytes, from, to);
    f[N] = code;
    return code !== NOT_FOUND;
  }
  f[key] = from;
  if (key === U) f[UNIT_END] = to;
  else if (key === VS) f[FAULT] = faultFromBytes(bytes, from, to);
  else if (key === BN) f[NAME_END] = to;
  else return false;
  return key !== VS || f[FAULT] !== 0;
}

function scanBoolean(b: Uint8Array, i: number, f: Float64Array): number {
  const isTrue = b[i] === 0x74;
  f[V] = isTrue ? 1 : 0;
  if (isTrue) return b[i + 1] === 0x72 && b[i + 2] === 0x75 && b[i + 3] === 0x65 ? i + 4 : NOT_FOUND;
  const isFalse =
    b[i] === 0x66 && b[i + 1] === 0x61 && b[i + 2] === 0x6c && b[i + 3] === 0x73 && b[i + 4] === 0x65;
  return isFalse ? i + 5 : NOT_FOUND;
}
