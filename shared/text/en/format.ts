/**
 * Figures inside sentences. Two things of one kind have two names here as everywhere: the water
 * between cut-out and cut-in is the tank drawdown, the fall of the well's level while pumping is
 * the well drawdown; "drawdown" alone is said of neither.
 */
import { formatNumber, formatQuantity } from '../../quantity/format-quantity.ts';
import type { UnitSystem } from '../../quantity/format-quantity.ts';
import { DAY_S, HOUR_S, MINUTE_S } from '../../units/duration.ts';

/** "40 psi", "276 kPa". Gauge pressure. */
export function formatPressure(kpa: number, units: UnitSystem): string {
  return formatQuantity(kpa, 'pressure', units);
}

/** "7.92 A". */
export function formatAmps(amps: number): string {
  return formatQuantity(amps, 'current', 'us');
}

/** "231 V". */
export function formatVolts(volts: number): string {
  return formatQuantity(volts, 'voltage', 'us');
}

/**
 * "3.2 ohm", "47 kohm", "500 megohm": a winding and its insulation are nine powers of ten apart.
 */
export function formatResistance(ohm: number): string {
  if (Math.abs(ohm) < 1e3) return formatQuantity(ohm, 'resistance', 'us');
  return Math.abs(ohm) < 1e6 ? `${formatNumber(ohm / 1e3, 1)} kohm` : `${formatNumber(ohm / 1e6, 1)} megohm`;
}

/** "13 gal", "3.4 gal": one decimal under 10, for small leaks and small tanks. */
export function formatVolume(litres: number, units: UnitSystem): string {
  return formatQuantity(litres, 'volume', units, Math.abs(litres) < 10 ? 1 : 0);
}

/** "10 gpm". */
export function formatFlow(lPerS: number, units: UnitSystem): string {
  return formatQuantity(lPerS, 'flow', units);
}

/** "180 ft", "54.9 m". */
export function formatDepth(m: number, units: UnitSystem): string {
  return formatQuantity(m, 'length', units);
}

/** What was written in sixteenths lies on one; what was written in mm does not. */
const SIXTEENTH_TOLERANCE = 0.02;

/**
 * "1-1/4 in", "6-5/8 in", "6 in", "32 mm": pipes and casings by their nominal diameter. Inches to
 * the quarter as the trade calls them, unless a finer fraction was written.
 */
export function formatDiameter(m: number, units: UnitSystem): string {
  if (units === 'metric') return `${formatNumber(m * 1000, 0)} mm`;
  const inches = m / 0.0254;
  const fine = Math.abs(inches * 16 - Math.round(inches * 16)) < SIXTEENTH_TOLERANCE;
  const sixteenths = fine ? Math.round(inches * 16) : Math.round(inches * 4) * 4;
  const [whole, rest] = [Math.floor(sixteenths / 16), sixteenths % 16];
  const shared = [8, 4, 2, 1].find((by) => rest % by === 0) ?? 1;
  const part = rest === 0 ? '' : `${rest / shared}/${16 / shared}`;
  return `${[whole === 0 && part !== '' ? '' : String(whole), part].filter((one) => one !== '').join('-')} in`;
}

/** "35 F", "1.7 C". */
export function formatTemperature(c: number, units: UnitSystem): string {
  return formatQuantity(c, 'temperature', units);
}

/** "3/4 hp", "0.56 kW". */
export function formatMotorPower(w: number, units: UnitSystem): string {
  return formatQuantity(w, 'power', units);
}

/**
 * The two largest parts of a duration: "45 s", "1 min 58 s", "18 min", "2 h 5 min", "3 days 4 h".
 * Seconds drop out from 10 min on.
 */
export function formatDuration(seconds: number): string {
  const s = Math.max(0, Math.round(seconds));
  if (s < MINUTE_S) return `${s} s`;
  if (s < 10 * MINUTE_S) return twoUnits(s, MINUTE_S, 'min', 1, 's');
  const min = Math.round(s / MINUTE_S) * MINUTE_S;
  if (min < HOUR_S) return `${min / MINUTE_S} min`;
  if (min < DAY_S) return twoUnits(min, HOUR_S, 'h', MINUTE_S, 'min');
  const h = Math.round(s / HOUR_S) * HOUR_S;
  return twoUnits(h, DAY_S, h < 2 * DAY_S ? 'day' : 'days', HOUR_S, 'h');
}

function twoUnits(s: number, large: number, largeName: string, small: number, smallName: string): string {
  const rest = Math.floor((s % large) / small);
  const first = `${Math.floor(s / large)} ${largeName}`;
  return rest === 0 ? first : `${first} ${rest} ${smallName}`;
}

const ENGLISH_PLURALS = new Intl.PluralRules('en');

/** "1 start", "14 starts", "1,200 starts". `many` is given where it is not `one` with an s. */
export function formatCount(n: number, one: string, many = `${one}s`): string {
  return `${formatNumber(n, 0)} ${ENGLISH_PLURALS.select(n) === 'one' ? one : many}`;
}

/** "4.2 %", of a share 0.042; whole per cents from 10 on. */
export function formatPercent(fraction: number): string {
  const percent = fraction * 100;
  return `${formatNumber(percent, Math.abs(percent) < 10 ? 1 : 0)} %`;
}
