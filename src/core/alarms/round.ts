/**
 * Rounding of the figures that an alarm carries as evidence. Sentences round for themselves
 * (shared/text/en/reasons/).
 */

/** Rounded for evidence: enough digits for a person, few enough to read. */
export function roundTo(value: number, digits = 2): number {
  const scale = 10 ** digits;
  return Math.round(value * scale) / scale;
}

/** Rounded to so many significant figures, and to three decimals at most. */
export function toSignificant(value: number, count: number): number {
  if (value === 0) return 0;
  const digits = Math.max(0, count - 1 - Math.floor(Math.log10(Math.abs(value))));
  return Number(value.toFixed(Math.min(digits, 3)));
}
