/**
 * Prints an SI value in people's units, US or metric. How many decimals a quantity carries is
 * decided here once: what a gauge, a clamp or a tape can honestly show, and never more.
 */
import { UNITS } from './units.ts';
import type { Dimension, Unit, UnitName } from './units.ts';

export type UnitSystem = 'us' | 'metric';

interface DisplayUnit<D extends Dimension> {
  unit: UnitName<D>;
  decimals: number;
}

/**
 * Feet for depths, psi in whole pounds as a dial shows them, amps to a hundredth as a clamp does.
 */
const DISPLAY_UNITS: { [S in UnitSystem]: { [D in Dimension]: DisplayUnit<D> } } = {
  us: {
    pressure: { unit: 'psi', decimals: 0 },
    length: { unit: 'ft', decimals: 0 },
    volume: { unit: 'gal', decimals: 0 },
    flow: { unit: 'gpm', decimals: 1 },
    power: { unit: 'hp', decimals: 2 },
    current: { unit: 'A', decimals: 2 },
    voltage: { unit: 'V', decimals: 0 },
    temperature: { unit: 'F', decimals: 0 },
    duration: { unit: 'min', decimals: 0 },
    resistance: { unit: 'ohm', decimals: 2 },
    capacitance: { unit: 'uF', decimals: 1 },
  },
  metric: {
    pressure: { unit: 'kPa', decimals: 0 },
    length: { unit: 'm', decimals: 1 },
    volume: { unit: 'L', decimals: 0 },
    flow: { unit: 'L/min', decimals: 1 },
    power: { unit: 'kW', decimals: 2 },
    current: { unit: 'A', decimals: 2 },
    voltage: { unit: 'V', decimals: 0 },
    temperature: { unit: 'C', decimals: 1 },
    duration: { unit: 'min', decimals: 0 },
    resistance: { unit: 'ohm', decimals: 2 },
    capacitance: { unit: 'uF', decimals: 1 },
  },
};

/** Motor sizes as plates write them; a power within 1 % of one is printed so. */
const PLATE_HP: readonly [number, string][] = [
  [1 / 6, '1/6'],
  [1 / 4, '1/4'],
  [1 / 3, '1/3'],
  [1 / 2, '1/2'],
  [3 / 4, '3/4'],
  [1.5, '1-1/2'],
  [7.5, '7-1/2'],
];
const PLATE_TOLERANCE = 0.01;

/** The number alone in people's units, for a chart's axis or a sum. */
export function toDisplayUnits(
  si: number,
  dimension: Dimension,
  system: UnitSystem,
): { value: number; unit: string } {
  const { unit } = DISPLAY_UNITS[system][dimension];
  return { value: unitOf(dimension, unit).fromSi(si), unit };
}

/**
 * A value with its unit, thousands parted by a comma: "40 psi", "5,200 ft", "3/4 hp". Trailing
 * zeros after the point are dropped.
 */
export function formatQuantity(
  si: number,
  dimension: Dimension,
  system: UnitSystem,
  decimals?: number,
): string {
  const { value, unit } = toDisplayUnits(si, dimension, system);
  if (unit === 'hp') {
    const plate = PLATE_HP.find(([hp]) => Math.abs(value / hp - 1) <= PLATE_TOLERANCE);
    if (plate) return `${plate[1]} hp`;
  }
  return `${formatNumber(value, decimals ?? DISPLAY_UNITS[system][dimension].decimals)} ${unit}`;
}

/**
 * A plain number for people: at most `decimals` after the point, thousands parted by a comma, never
 * "-0".
 */
export function formatNumber(value: number, decimals: number): string {
  const [whole = '', part = ''] = Math.abs(value).toFixed(decimals).split('.');
  const decimalsText = part.replace(/0+$/, '');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const text = decimalsText === '' ? grouped : `${grouped}.${decimalsText}`;
  return value < 0 && text !== '0' ? `-${text}` : text;
}

function unitOf(dimension: Dimension, name: string): Unit {
  const units: readonly Unit[] = UNITS[dimension];
  const unit = units.find((one) => one.name === name);
  if (!unit) throw new RangeError(`Cannot print ${dimension}: no unit is called ${name}`);
  return unit;
}
