/**
 * A 32-bit hash of a payload, by which the same pack sent again is told from another pack under the
 * same number (contract, section 2). MurmurHash3 x86_32 with seed 0 (A. Appleby, public domain):
 * four bytes a step, and published values to check against. It guards against mix-ups, not against
 * forgery: who may publish under a name is the broker's business.
 */
const C1 = 0xcc9e2d51;
const C2 = 0x1b873593;

function mixed(k: number): number {
  const a = Math.imul(k, C1);
  return Math.imul((a << 15) | (a >>> 17), C2);
}

/** Hash of these bytes, 0 to 2^32 - 1. */
export function digestOf(bytes: Uint8Array): number {
  const whole = bytes.length & ~3;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let h = 0;
  for (let i = 0; i < whole; i += 4) {
    h ^= mixed(view.getInt32(i, true));
    h = (Math.imul((h << 13) | (h >>> 19), 5) + 0xe6546b64) | 0;
  }
  let tail = 0;
  for (let i = bytes.length - 1; i >= whole; i--) tail = (tail << 8) | bytes[i]!;
  if (whole < bytes.length) h ^= mixed(tail);
  h ^= bytes.length;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
