/**
 * What the readings station hands on: readings of one well in order of time, as columns, so that
 * millions cost no objects.
 */
import type { FaultCode } from '../decode/messages.ts';

/**
 * A stretch of readings of one well, ordered by time and then by channel code; the first `n` of
 * each array count. `channel[i]` is a channel code (src/core/domain/channels.ts) in the well's own
 * names, or that of a start's current. `fault[i]` is a FaultCode and a mark on the first reading
 * after a clock step (`faultOf`, `isClockStep`); `value[i]` is NaN where the FaultCode is not 0.
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

/** The FaultCode of a reading, without the mark of a clock step. */
export function faultOf(mark: number): FaultCode {
  return (mark & 3) as FaultCode;
}

export function isClockStep(mark: number): boolean {
  return (mark & CLOCK_STEP_BIT) !== 0;
}
