/**
 * The short way's working memory: one place a key for what a record holds, as numbers alone (a text
 * is the place of its first byte), so that reading a pack makes no garbage. Written by
 * ./scan-record.ts and ./record-template.ts, judged by ./scan-pack.ts.
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
export const FIELD_COUNT = 20;

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

export function withoutField(bits: number, key: number): number {
  return bits & ~(1 << key);
}
