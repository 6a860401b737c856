/**
 * What the readings station hands on: readings of one well in order of time, as columns, so that
 * millions cost no objects.
 */

/**
 * A stretch of readings of one well, ordered by time and then by channel code; the first `n` of
 * each array count. `channel[i]` is a channel code (src/core/domain/channels.ts) in the well's own
 * names; places 12, 13 and 14 of a pump are its currents from `start` packs. `fault[i] & 3` is a
 * FaultCode; `value[i]` is NaN where that is not 0. `fault[i] & 4` marks the first reading after a
 * clock step.
 */
export interface Segment {
  n: number;
  timeMs: Float64Array;
  channel: Uint8Array;
  value: Float64Array;
  fault: Uint8Array;
}

/** Bit of `fault` on the first reading of a pack whose clock stepped. */
export const CLOCK_STEP_BIT = 4;

/**
 * Added to the code of `current`, `current-2`, `current-3` for readings of a `start` pack: they
 * serve the start alone.
 */
export const START_CODE_OFFSET = 12;
