/**
 * DEFLATE (RFC 1951) unpacked to exactly the size that was claimed. A kilobyte can unpack to a
 * megabyte, so the claim is checked before and kept to while it unpacks: work and memory follow the
 * claim, whatever the data would give.
 */
import { Inflate } from 'fflate';

/**
 * Packed bytes taken at a time. DEFLATE gives 1,032 for 1 at most (zlib's technical details), so a
 * step past the claim costs 17 MB.
 */
const STEP_BYTES = 16 * 1024;

/** Undefined if the data is damaged, or unpacks to more or less than `bytes`. */
export function inflateExactly(packed: Uint8Array, bytes: number): Uint8Array | undefined {
  const out = new Uint8Array(bytes);
  const state = { filled: 0, over: false };
  const stream = new Inflate((piece) => {
    state.over ||= piece.length > bytes - state.filled;
    if (state.over) return;
    out.set(piece, state.filled);
    state.filled += piece.length;
  });
  try {
    for (let at = 0; at < packed.length && !state.over; at += STEP_BYTES)
      stream.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length);
  } catch {
    return undefined;
  }
  return !state.over && state.filled === bytes ? out : undefined;
}
