/**
 * How a reason's figures are printed. A reason holds SI; the reader chooses US units, metric units,
 * or both: "59 psi (407 kPa)". Both is what `replay` prints and what goes to machines, since nobody
 * there has chosen.
 */
import { formatNumber, toDisplayUnits, type UnitSystem } from '../../../quantity/format-quantity.ts';
import type { Dimension } from '../../../quantity/units.ts';

export interface ReasonFormat {
  pressure: (kpa: number) => string;
  volume: (liters: number) => string;
  length: (meters: number) => string;
  temperature: (celsius: number) => string;
  amps: (amps: number) => string;
  volts: (volts: number) => string;
  /** A fraction of 1 without its sign: 0.043 is "4.3 %". */
  percent: (fraction: number) => string;
  /** At most two units: "45 s", "12 min", "3 h 20 min", "4 days". */
  duration: (seconds: number) => string;
  /** "1 run", "12 runs". */
  count: (n: number, one: string, other: string) => string;
  number: (value: number, decimals?: number) => string;
  /** "5 A, 7 A, and 8 A". */
  list: (items: readonly string[]) => string;
}

const PLURAL = new Intl.PluralRules('en-US');
const LIST = new Intl.ListFormat('en-US', { type: 'conjunction' });

/**
 * Prints a number of so many decimals in the chosen system, or in both with the second in brackets.
 */
type Print = (si: number, dimension: Dimension, decimals: (value: number) => number) => string;

const inSystem =
  (system: UnitSystem): Print =>
  (si, dimension, decimals) => {
    const { value, unit } = toDisplayUnits(si, dimension, system);
    return `${formatNumber(value, decimals(value))} ${unit}`;
  };
const inBoth: Print = (si, dimension, decimals) =>
  `${inSystem('us')(si, dimension, decimals)} (${inSystem('metric')(si, dimension, decimals)})`;

const whole = (): number => 0;
const significant =
  (count: number) =>
  (value: number): number =>
    significantDecimals(value, count);

function makeFormat(print: Print): ReasonFormat {
  return {
    // A pressure far under a psi is one in a wrong unit, or a slow fall: it needs its decimals.
    pressure: (kpa) => print(kpa, 'pressure', Math.abs(kpa) < 5 ? significant(2) : whole),
    volume: (liters) => print(liters, 'volume', significant(2)),
    length: (meters) => print(meters, 'length', significant(2)),
    temperature: (celsius) => print(celsius, 'temperature', whole),
    amps: (amps) => `${formatNumber(amps, significantDecimals(amps, 3))} A`,
    volts: (volts) => `${formatNumber(volts, 0)} V`,
    percent: (fraction) => {
      const percent = Math.abs(fraction) * 100;
      return `${formatNumber(percent, percent < 10 ? 1 : 0)} %`;
    },
    duration: formatDuration,
    count: (n, one, other) => `${formatNumber(n, 0)} ${PLURAL.select(n) === 'one' ? one : other}`,
    number: (value, decimals = 0) => formatNumber(value, decimals),
    list: (items) => LIST.format(items),
  };
}

export const REASON_FORMATS: Record<UnitSystem | 'both', ReasonFormat> = {
  us: makeFormat(inSystem('us')),
  metric: makeFormat(inSystem('metric')),
  both: makeFormat(inBoth),
};

function formatDuration(seconds: number): string {
  if (seconds < 90) return `${formatNumber(seconds, seconds < 10 ? 1 : 0)} s`;
  if (seconds < 5400) return `${formatNumber(seconds / 60, 0)} min`;
  if (seconds < 172_800) {
    const minutes = Math.round(seconds / 60);
    const rest = minutes % 60;
    return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`;
  }
  return `${formatNumber(seconds / 86_400, seconds < 864_000 ? 1 : 0)} days`;
}

/** How many decimals show so many significant figures; never more than three. */
function significantDecimals(value: number, count: number): number {
  if (value === 0) return 0;
  return Math.min(3, Math.max(0, count - 1 - Math.floor(Math.log10(Math.abs(value)))));
}
