/** Series in the units of who reads, and what a chart of them says in one sentence. */
import { toDisplayUnits, formatNumber } from '../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { texts } from '../texts.ts';

type Value = number | null | undefined;

export function inUnits(
  values: readonly Value[],
  dimension: Dimension,
  units: UnitSystem,
): (number | null)[] {
  return values.map((value) =>
    value === null || value === undefined ? null : toDisplayUnits(value, dimension, units).value,
  );
}

export function unitName(dimension: Dimension, units: UnitSystem): string {
  return toDisplayUnits(0, dimension, units).unit;
}

/**
 * "from 7.8 to 8.1 A, last 7.9 A", or that nothing was measured. Values are in people's units
 * already.
 */
export function spanWords(values: readonly Value[], unit: string, decimals: number): string {
  const known = values.filter((value) => value !== null && value !== undefined);
  const last = known.at(-1);
  if (last === undefined) return texts().noValues;
  const format = (value: number): string => formatNumber(value, decimals);
  const [min, max] = known.reduce(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [last, last],
  );
  return texts().valueSpan(format(min), format(max), unit, format(last), unit);
}
