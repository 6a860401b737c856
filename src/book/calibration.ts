/**
 * The two points by which a clamp is calibrated: what the node read (uncorrected) and what the meter showed. Two loads that differ enough,
 * or one load and the clamp at rest, where a dead conductor carries nothing; a clamp that shows more than a trace at rest has something
 * else on it, and its rest is no point.
 */
export interface ClampPair {
  readA: number;
  trueA: number;
}

export type CalibrationPoints =
  | { is: 'two'; points: [[number, number], [number, number]]; byRest: boolean }
  | { is: 'none'; because: 'no-pair' | 'one-load' | 'does-not-rise' };

/** Closer than this the readings' own error turns the line: 2 % each over a fifth is a tenth of slope. */
const APART_SHARE = 0.2;
/** Noise of a clamp at rest adds in squares to a running current, and so to nothing there. */
const REST_SHARE = 0.02;

/** `pairs` since the last calibration of this channel; `restA` what the node reads while the pump stands still. */
export function calibrationPoints(pairs: readonly ClampPair[], restA: number | undefined): CalibrationPoints {
  const rising = pairs.toSorted((a, b) => a.readA - b.readA);
  const [low, high] = [rising[0], rising.at(-1)];
  if (!low || !high) return { is: 'none', because: 'no-pair' };
  if (high.readA - low.readA >= APART_SHARE * high.readA)
    return high.trueA > low.trueA
      ? { is: 'two', points: [pointOf(low), pointOf(high)], byRest: false }
      : { is: 'none', because: 'does-not-rise' };
  // The newest of loads that are one and the same.
  const last = pairs.at(-1)!;
  if (restA === undefined || restA > REST_SHARE * last.readA) return { is: 'none', because: 'one-load' };
  return last.trueA > 0 && last.readA > restA
    ? { is: 'two', points: [[restA, 0], pointOf(last)], byRest: true }
    : { is: 'none', because: 'does-not-rise' };
}

function pointOf({ readA, trueA }: ClampPair): [number, number] {
  return [readA, trueA];
}
