/**
 * Many errors held in little room: counts in bins of two per cent, so that the quantiles of a
 * hundred well-years fit a message and can be put together from parts in any order. A quantile is
 * told by the upper end of its bin: never better than it was.
 */
export interface Histogram {
  n: number;
  /** Exactly nothing. */
  zero: number;
  /** Bin i holds values over RATIO^(i-1) and up to RATIO^i. */
  bins: Record<string, number>;
}

const RATIO = 1.02;
const LOG_RATIO = Math.log(RATIO);

export function newHistogram(): Histogram {
  return { n: 0, zero: 0, bins: {} };
}

/** Adds a finite value of 0 or more. */
export function addTo(histogram: Histogram, value: number): void {
  histogram.n++;
  // Under a thousand millionth is arithmetic, not error.
  if (value < 1e-9) {
    histogram.zero++;
    return;
  }
  const bin = Math.ceil(Math.log(value) / LOG_RATIO - 1e-9);
  histogram.bins[bin] = (histogram.bins[bin] ?? 0) + 1;
}

export function mergeInto(histogram: Histogram, other: Histogram): void {
  histogram.n += other.n;
  histogram.zero += other.zero;
  for (const [bin, n] of Object.entries(other.bins)) histogram.bins[bin] = (histogram.bins[bin] ?? 0) + n;
}

/** The value that a share `p` of all does not exceed; undefined where there is none. */
export function quantile({ n, zero, bins }: Histogram, p: number): number | undefined {
  if (n === 0) return undefined;
  let left = Math.ceil(p * n) - zero;
  if (left <= 0) return 0;
  const sorted = Object.keys(bins)
    .map(Number)
    .sort((a, b) => a - b);
  for (const bin of sorted) {
    left -= bins[bin]!;
    if (left <= 0) return RATIO ** bin;
  }
  return undefined;
}
