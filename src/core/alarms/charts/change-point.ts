/**
 * When a shift began, by the CUSUM itself: with the run after the one at which its sum stood at
 * zero last (Page 1954; Montgomery). The reference value is half of the shift that is looked for,
 * so that this run shows more than half of it.
 */

/**
 * A single value far off must not carry the sum over the values after it: it counts for no more
 * than two shifts, and three values of the target take it back to zero.
 */
const MAX_SHIFTS = 2;

/** Index of the first value since the change; the count of values where there is no change. */
export function changePoint(deviations: readonly number[], shift: number): number {
  const k = shift / 2;
  let sum = 0;
  let from = deviations.length;
  for (const [at, deviation] of deviations.entries()) {
    const next = Math.max(0, sum + Math.min(MAX_SHIFTS * shift, deviation) - k);
    if (sum === 0 && next > 0) from = at;
    if (next === 0) from = deviations.length;
    sum = next;
  }
  return from;
}
