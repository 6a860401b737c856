/**
 * Statistics that one bad reading cannot move: median, MAD and what is built on them. Half of the
 * values may be wrong before a median is. Definitions: Hampel 1974; Iglewicz & Hoaglin 1993 for the
 * modified z; checked by hand in tests/core/baseline/robust.test.ts against NIST/SEMATECH 1.3.5.17.
 * Medians and quantiles are simple-statistics'; what it lacks stands here: a spread that a coarse
 * sensor does not bring to 0.
 */
import { median as medianOf, medianAbsoluteDeviation, quantile as quantileOf } from 'simple-statistics';
import type { Normal } from './baseline.ts';

/** 1 / quantile(0.75) of the normal distribution: makes MAD an estimate of sigma. By definition. */
const MAD_TO_SIGMA = 1.4826;

/** sqrt(pi / 2): makes the mean absolute deviation an estimate of sigma. By definition. */
const MEAN_DEVIATION_TO_SIGMA = 1.253314;

/**
 * The middle value, or the mean of the two in the middle; undefined for an empty list. The list is
 * not changed.
 */
export function median(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : medianOf(values);
}

/**
 * The quantile of `values` at `rank` (0 to 1), along straight lines between order statistics (R's
 * type 7).
 */
export function quantile(values: readonly number[], rank: number): number | undefined {
  return values.length === 0 ? undefined : quantileOf(values, rank);
}

/** Median absolute deviation from the median, unscaled; undefined for an empty list. */
export function mad(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : medianAbsoluteDeviation(values);
}

/**
 * Spread as an estimate of sigma: 1.4826 x MAD. Where MAD is 0 (more than half of the values are
 * the same number, as with a coarse sensor) it is 1.2533 x the mean absolute deviation instead,
 * which is 0 only where all values are the same.
 */
export function spreadOf(values: readonly number[]): number {
  const middle = median(values);
  if (middle === undefined) return 0;
  const deviation = mad(values) ?? 0;
  if (deviation > 0) return MAD_TO_SIGMA * deviation;
  let sum = 0;
  for (const value of values) sum += Math.abs(value - middle);
  return (MEAN_DEVIATION_TO_SIGMA * sum) / values.length;
}

/** Median, spread and count of a list; undefined for an empty one. */
export function normalOf(values: readonly number[]): Normal | undefined {
  const middle = median(values);
  return middle === undefined ? undefined : { median: middle, spread: spreadOf(values), n: values.length };
}
