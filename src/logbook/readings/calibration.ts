/**
 * The two points by which a clamp is calibrated: what the node read (uncorrected) and what the
 * meter showed. Two loads that differ enough, or one load and the clamp at rest, where a dead
 * conductor carries nothing; a clamp that shows more than a trace at rest has something else on it,
 * and its rest is no point.
 */
export interface ClampPair {
  readA: number;
  trueA: number;
}

export type CalibrationPoints =
  | { is: 'two'; points: [[number, number], [number, number]]; usesZero: boolean }
  | { is: 'none'; reason: 'no-pair' | 'one-load' | 'does-not-rise' };

/**
 * Closer than this the readings' own error turns the line: 2 % each over a fifth is a tenth of
 * slope.
 */
const MIN_LOAD_DIFFERENCE_RATIO = 0.2;
/** Noise of a clamp at rest adds in squares to a running current, and so to nothing there. */
const MAX_ZERO_RATIO = 0.02;

/**
 * `pairs` since the last calibration of this channel; `zeroA` what the node reads while the pump
 * stands still.
 */
export function calibrationPoints(pairs: readonly ClampPair[], zeroA: number | undefined): CalibrationPoints {
  const rising = pairs.toSorted((a, b) => a.readA - b.readA);
  const [low, high] = [rising[0], rising.at(-1)];
  if (!low || !high) return { is: 'none', reason: 'no-pair' };
  if (high.readA - low.readA >= MIN_LOAD_DIFFERENCE_RATIO * high.readA)
    return high.trueA > low.trueA
      ? { is: 'two', points: [pointOf(low), pointOf(high)], usesZero: false }
      : { is: 'none', reason: 'does-not-rise' };
  // The newest of loads that are one and the same.
  const last = pairs.at(-1)!;
  if (zeroA === undefined || zeroA > MAX_ZERO_RATIO * last.readA) return { is: 'none', reason: 'one-load' };
  return last.trueA > 0 && last.readA > zeroA
    ? { is: 'two', points: [[zeroA, 0], pointOf(last)], usesZero: true }
    : { is: 'none', reason: 'does-not-rise' };
}

function pointOf({ readA, trueA }: ClampPair): [number, number] {
  return [readA, trueA];
}
