/**
 * The median of a few pressures or currents, as one of the values that were measured, not a value
 * between two of them: thresholds that readings are compared with then lie on the steps in which a
 * sensor speaks.
 */

/** The upper of the two middle ones of an even count; 0 of none. */
export function upperMedian(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
}
