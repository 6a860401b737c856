/**
 * Does it rise, and how fast, said so that a few bad values change neither: the Mann-Kendall test
 * counts pairs that go up against pairs that go down, the Theil-Sen slope is the middle of the
 * slopes of all pairs (Mann 1945, Kendall 1975; Theil 1950, Sen 1968; as in US EPA QA/G-9S, section
 * 4.3). For short stretches: the work grows as the square of their length. simple-statistics has
 * neither of the two.
 */
import { median } from './robust.ts';

/** One-sided 5 % of the normal distribution. */
const Z_LIMIT = 1.645;

/** Middle slope of all pairs, in y a unit of x; undefined where no two x differ. */
export function theilSen(x: readonly number[], y: readonly number[]): number | undefined {
  const slopes: number[] = [];
  for (let to = 1; to < x.length; to++) {
    for (let from = 0; from < to; from++) {
      const apart = x[to]! - x[from]!;
      if (apart !== 0) slopes.push((y[to]! - y[from]!) / apart);
    }
  }
  return median(slopes);
}

/**
 * Mann-Kendall: the sum of signs of all pairs, its variance without trend (ties counted), and z
 * with continuity correction.
 */
export function mannKendall(y: readonly number[]): { s: number; variance: number; z: number } {
  let s = 0;
  for (let to = 1; to < y.length; to++)
    for (let from = 0; from < to; from++) s += Math.sign(y[to]! - y[from]!);
  const ties = new Map<number, number>();
  for (const value of y) ties.set(value, (ties.get(value) ?? 0) + 1);
  const term = (n: number): number => n * (n - 1) * (2 * n + 5);
  let variance = term(y.length);
  for (const count of ties.values()) variance -= term(count);
  variance /= 18;
  const z = s === 0 || variance <= 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  return { s, variance, z };
}

/**
 * How much evenly spaced values rose from first to last by their trend; 0 where there is no sure
 * upward one.
 */
export function trendRise(values: readonly number[]): number {
  if (values.length < 3 || mannKendall(values).z < Z_LIMIT) return 0;
  const slope = theilSen([...values.keys()], values) ?? 0;
  return slope * (values.length - 1);
}
