/**
 * EWMA: a mean that forgets, and how far it may stray by chance. NIST/SEMATECH e-Handbook 6.3.2.4;
 * Roberts 1959.
 */

/** The next mean: `lambda` (0 to 1] is the weight of the new value. */
export function updateEwma(mean: number, value: number, lambda: number): number {
  return mean + lambda * (value - mean);
}

/**
 * Distance of the control limits from target once the mean has settled: L x sigma x sqrt(lambda /
 * (2 - lambda)).
 */
export function ewmaLimit(sigma: number, lambda: number, width: number): number {
  return width * sigma * Math.sqrt(lambda / (2 - lambda));
}
