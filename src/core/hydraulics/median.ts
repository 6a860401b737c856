/** The middle of a few numbers: one wild value moves it to its neighbour, no further. */

/** NaN of none; the mean of the two middle ones of an even count. */
export function median(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
