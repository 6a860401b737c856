/**
 * CUSUM: sums what exceeds a reference value, so that a small lasting shift adds up and chance
 * cancels. The tabular form of NIST/SEMATECH e-Handbook 6.3.2.3; Page 1954.
 */
export interface Cusum {
  /** Upward and downward sums, in the unit of the values; both start at 0. */
  high: number;
  low: number;
}

export function newCusum(): Cusum {
  return { high: 0, low: 0 };
}

/**
 * One value more. `k` is the reference value (half of the shift to be found) and `deviation` the
 * value's deviation from target, in one unit: data units as in NIST's example, or spreads.
 */
export function updateCusum(sums: Cusum, deviation: number, k: number): void {
  sums.high = Math.max(0, sums.high + deviation - k);
  sums.low = Math.max(0, sums.low - deviation - k);
}

/** Which way the sums stand over the limit `h`; undefined where neither does. */
export function cusumDirection(sums: Cusum, h: number): 'high' | 'low' | undefined {
  if (sums.high > h) return 'high';
  return sums.low > h ? 'low' : undefined;
}
