/**
 * The short way for the usual CBOR pack, as ../senml-json/scan-pack.ts is for JSON: from bytes
 * straight to columns, with no object or string made on the way. Usual is one list of maps with
 * their lengths said, each key once, and the keys that a node of ours sends (RFC 8428, section 6;
 * RFC 8949). On anything else it gives up, and ./cbor-bytes.ts reads the pack the long way.
 */
import { NOT_FOUND, bytesEqual } from '../json/json-scan.ts';
import { ABSOLUTE_FROM_S, MAX_RECORDS } from '../limits.ts';
import type { Pack } from '../messages.ts';
import { channelFromBytes } from '../senml/channel-bytes.ts';
import { resetRows } from '../senml/rows.ts';
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
  U,
  UNIT_END,
  UP,
  V,
  VB,
  VS,
  faultFromBytes,
  hasField,
  resetFields,
  withField,
} from '../senml/scan-fields.ts';
import { addRecord, scannedPack } from '../senml/scanned-pack.ts';
import type { PackSource } from '../wire-format.ts';
import { CBOR_LABELS } from './cbor-labels.ts';
import {
  LIST,
  MAP,
  NEGATIVE,
  SIMPLE,
  TEXT,
  UNSIGNED,
  isShortFloat,
  itemEnd,
  newHead,
  numberOf,
  readHead,
} from './cbor-head.ts';

const encoder = new TextEncoder();
/** Keys that RFC 8428 has no label for, as text. */
const TEXT_KEYS = (
  [
    ['boot', BOOT],
    ['seq', SEQ],
    ['first', FIRST],
    ['up', UP],
  ] as const
).map(([word, key]) => ({ word: encoder.encode(word), key }));

const { bn, bt, n, u, v, vs, vb, t } = CBOR_LABELS;
const KEY_OF_LABEL = new Map<number, number>([
  [bn, BN],
  [bt, BT],
  [n, N],
  [u, U],
  [v, V],
  [vs, VS],
  [vb, VB],
  [t, T],
]);

const FALSE = 20;
const TRUE = 21;
const MAX_ASCII = 0x7f;

/** One head serves all items, as rows serve all packs. */
const head = newHead();

/** The pack, or undefined where it is not of the usual shape. */
export function scanPack(source: PackSource): Pack | undefined {
  const { bytes } = source;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const f = resetFields();
  const rows = resetRows();
  if (!readHead(head, view, 0) || head.major !== LIST || head.argument > MAX_RECORDS) return undefined;
  let left = head.argument;
  if (left === 0) return undefined;
  let at = head.end;
  for (; left > 0; left--) {
    at = scanRecord(bytes, view, at, f);
    if (at === NOT_FOUND || !addRecord(source, f, rows)) return undefined;
  }
  return at === bytes.length ? scannedPack(f, rows, source) : undefined;
}

/** Reads one record into `f`; answers where it ends, or NOT_FOUND. */
function scanRecord(bytes: Uint8Array, view: DataView, from: number, f: Float64Array): number {
  if (!readHead(head, view, from) || head.major !== MAP) return NOT_FOUND;
  let at = head.end;
  let seen = 0;
  f[T] = 0;
  f[FAULT] = 0;
  for (let left = head.argument; left > 0; left--) {
    const key = readHead(head, view, at) ? keyOf(bytes) : NOT_FOUND;
    if (key === NOT_FOUND || hasField(seen, key)) return NOT_FOUND;
    seen = withField(seen, key);
    if (!readHead(head, view, itemEnd(head))) return NOT_FOUND;
    at = scanField(bytes, view, key, f);
    if (at === NOT_FOUND) return NOT_FOUND;
  }
  f[SEEN_BITS] = seen;
  return at;
}

/** The key that the item in the head is, or NOT_FOUND where it is no usual one. */
function keyOf(bytes: Uint8Array): number {
  const { major, argument, end } = head;
  if (major === UNSIGNED) return KEY_OF_LABEL.get(argument) ?? NOT_FOUND;
  if (major === NEGATIVE) return KEY_OF_LABEL.get(-1 - argument) ?? NOT_FOUND;
  if (major !== TEXT) return NOT_FOUND;
  for (const { word, key } of TEXT_KEYS) if (bytesEqual(bytes, end, end + argument, word)) return key;
  return NOT_FOUND;
}

/** Reads the value in the head into its place in `f`; answers where it ends, or NOT_FOUND. */
function scanField(bytes: Uint8Array, view: DataView, key: number, f: Float64Array): number {
  if (key === N || key === U || key === VS || key === BN) {
    const to = itemEnd(head);
    return head.major === TEXT && scanText(bytes, head.end, to, key, f) ? to : NOT_FOUND;
  }
  if (key === VB) {
    if (head.major !== SIMPLE || (head.info !== TRUE && head.info !== FALSE)) return NOT_FOUND;
    f[V] = head.info === TRUE ? 1 : 0;
    return head.end;
  }
  const value = numberOf(head, view);
  f[key] = value;
  if (!Number.isFinite(value)) return NOT_FOUND;
  // A half or a single holds today's seconds only to the minute: such a time is refused.
  const isCoarse = isShortFloat(head) && (key === BT || (key === T && value >= ABSOLUTE_FROM_S));
  return isCoarse ? NOT_FOUND : head.end;
}

function scanText(bytes: Uint8Array, from: number, to: number, key: number, f: Float64Array): boolean {
  if (!isAscii(bytes, from, to)) return false;
  if (key === N) {
    const code = channelFromBytes(bytes, from, to);
    f[N] = code;
    return code !== NOT_FOUND;
  }
  f[key] = from;
  if (key === U) f[UNIT_END] = to;
  else if (key === BN) f[NAME_END] = to;
  else f[FAULT] = faultFromBytes(bytes, from, to);
  return key !== VS || f[FAULT] !== 0;
}

/** False too where the bytes end before `to`. */
function isAscii(bytes: Uint8Array, from: number, to: number): boolean {
  if (to > bytes.length) return false;
  for (let at = from; at < to; at++) if (bytes[at]! > MAX_ASCII) return false;
  return true;
}
