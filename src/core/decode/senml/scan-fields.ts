/**
 * The working memory of the short ways of reading a pack: one place a key for what a record holds,
 * as numbers alone (a text is the place of its first byte), so that reading a pack makes no
 * garbage. Written by ../senml-json/scan-record.ts, ../senml-json/record-template.ts and
 * ../senml-cbor/scan-pack.ts, judged by ./scanned-pack.ts.
 */

export const N = 0;
export const U = 1;
export const T = 2;
export const V = 3;
export const VS = 4;
export const VB = 5;
export const BN = 6;
export const BT = 7;
export const BOOT = 8;
export const SEQ = 9;
export const FIRST = 10;
export const UP = 11;
export const UNIT_END = 12;
export const FAULT = 13;
/**
 * Which keys the record at hand has shown, and which of the pack's own the first record showed: one
 * bit a key.
 */
export const SEEN_BITS = 14;
export const HEADER_BITS_SEEN = 15;
/** Where the digits of the record's time and value stand in the bytes. */
export const T_FROM = 16;
export const T_TO = 17;
export const V_FROM = 18;
export const V_TO = 19;
/** Where the base name ends. */
export const NAME_END = 20;
const FIELD_COUNT = 21;

/**
 * A pack half read: what the first record says of all, and the record at hand. One serves all
 * packs, as rows do.
 */
const sharedFields = new Float64Array(FIELD_COUNT);

export function resetFields(): Float64Array {
  return sharedFields.fill(0);
}

/** Bits of these keys, one a key, as in SEEN_BITS. */
export function bitsOf(...keys: number[]): number {
  return keys.reduce(withField, 0);
}

export function hasField(bits: number, key: number): boolean {
  return (bits & (1 << key)) !== 0;
}

export function withField(bits: number, key: number): number {
  return bits | (1 << key);
}

/** The place of a fault in FAULT by its word in `vs`: 0 for any other word. */
export function faultFromBytes(bytes: Uint8Array, from: number, to: number): number {
  const word = to - from > 4 ? '' : String.fromCharCode(...bytes.subarray(from, to));
  return word === 'low' ? 1 : word === 'high' ? 2 : word === 'bad' ? 3 : 0;
}

export function withoutField(bits: number, key: number): number {
  return bits & ~(1 << key);
}
