/**
 * Two-point calibration of one channel: a straight line through two pairs of (what was read, what was true), in the channel's
 * own unit. In force from the time of the act that gave the points; whoever runs the readings keeps the newest for each channel.
 */

/** true = gain x read + offset. */
export interface TwoPointCorrection {
  gain: number;
  offset: number;
}

/**
 * The line through the first two points.
 * Throws RangeError where there are not two points, or both were read the same: no line goes through them.
 */
export function twoPointCorrection(points: readonly (readonly [number, number])[]): TwoPointCorrection {
  const [low, high] = points;
  if (!low || !high)
    throw new RangeError(`Cannot calibrate: two points [read, true] are needed, got ${points.length}`);
  const span = high[0] - low[0];
  if (!(Math.abs(span) > 0) || !Number.isFinite(span)) {
    throw new RangeError(
      `Cannot calibrate: the two points must be read differently: ${low[0]} and ${high[0]}`,
    );
  }
  const gain = (high[1] - low[1]) / span;
  const offset = low[1] - gain * low[0];
  if (!Number.isFinite(gain) || !Number.isFinite(offset)) {
    throw new RangeError(`Cannot calibrate: every point must be a finite number: ${JSON.stringify(points)}`);
  }
  return { gain, offset };
}

export function corrected(correction: TwoPointCorrection, read: number): number {
  return correction.gain * read + correction.offset;
}
