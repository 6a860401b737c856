/**
 * Two-point calibration of one channel: a straight line through two pairs of (what was read, what
 * was true), in the channel's own unit. In force from the time of the act that gave the points;
 * whoever runs the readings keeps the newest for each channel. It lies beside the acts because a
 * line that no reading can be corrected by is refused where the act is read.
 */
import { VALUE_BOUNDS } from './channel-bounds.ts';
import { baseChannel } from './channels.ts';
import { texts } from './texts.ts';

/** true = gain x read + offset. */
export interface TwoPointCorrection {
  gain: number;
  offset: number;
}

/**
 * A sensor read in a wrong range, or a clamp of the wrong ratio, is off by 10 at most, and both
 * together by 100. Beyond that the points are a slip of the hand or a wrong unit. Common practice,
 * no source.
 */
const MAX_GAIN = 100;
const MIN_GAIN = 1 / MAX_GAIN;

/**
 * The line through two points, or the rule that they break with the value that breaks it. Never
 * throws.
 */
export function twoPointCorrection(
  channel: string,
  points: readonly (readonly [number, number])[],
): { correction: TwoPointCorrection } | { rule: string; value: string } {
  const base = baseChannel(channel);
  if (base === undefined) return { rule: texts().mustBeChannelOfContract, value: channel };
  const [low, high] = points;
  if (!low || !high) return { rule: texts().mustBeTwoPairs, value: String(points.length) };
  const gain = (high[1] - low[1]) / (high[0] - low[0]);
  // What is no number fails every comparison, so each rule says what must hold.
  if (!(gain >= MIN_GAIN && gain <= MAX_GAIN)) {
    const rule = texts().mustHaveGain({ min: MIN_GAIN, max: MAX_GAIN });
    return { rule, value: String(gain) };
  }
  const offset = low[1] - gain * low[0];
  const most = mostOf(VALUE_BOUNDS[base]);
  if (!(Math.abs(offset) <= most)) {
    const rule = texts().mustHaveOffset(most);
    return { rule, value: String(offset) };
  }
  return { correction: { gain, offset } };
}

/**
 * An offset is a difference of two values, so it may have either sign: a 240 V sensor that reads 5
 * V high is off by -5 V.
 */
function mostOf({ low, high }: { low: number; high: number }): number {
  return Math.max(Math.abs(low), Math.abs(high));
}
