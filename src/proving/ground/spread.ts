/**
 * Many errors held in little room: counts in bins of two per cent, so that the quantiles of a hundred well-years fit a message and can
 * be put together from parts in any order. A quantile is told by the upper end of its bin: never better than it was.
 */
export interface Spread {
  n: number;
  /** Exactly nothing. */
  zero: number;
  /** Bin i holds values over RATIO^(i-1) and up to RATIO^i. */
  bins: Record<string, number>;
}

const RATIO = 1.02;
const LOG_RATIO = Math.log(RATIO);

export function newSpread(): Spread {
  return { n: 0, zero: 0, bins: {} };
}

/** Adds a finite value of 0 or more. */
export function addTo(spread: Spread, value: number): void {
  spread.n++;
  // Under a thousand millionth is arithmetic, not error.
  if (value < 1e-9) {
    spread.zero++;
    return;
  }
  const bin = Math.ceil(Math.log(value) / LOG_RATIO - 1e-9);
  spread.bins[bin] = (spread.bins[bin] ?? 0) + 1;
}

export function mergeInto(spread: Spread, other: Spread): void {
  spread.n += other.n;
  spread.zero += other.zero;
  for (const [bin, n] of Object.entries(other.bins)) spread.bins[bin] = (spread.bins[bin] ?? 0) + n;
}

/** The value that a share `p` of all does not exceed; undefined where there is none. */
export function quantile({ n, zero, bins }: Spread, p: number): number | undefined {
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
