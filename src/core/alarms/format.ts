/**
 * How a finding says its figures: in the well's people's unit with SI beside it, "59 psi (407 kPa)", and times as a person would
 * tell them. Evidence carries the same figures in SI, by name.
 */
import { DAY_S } from '../../../shared/units/duration.ts';
import { psiFromKpa } from '../../../shared/units/pressure.ts';

const L_PER_GALLON = 3.785411784;
const M_PER_FOOT = 0.3048;

export function formatPressure(kpa: number): string {
  return `${round(psiFromKpa(kpa), 0)} psi (${round(kpa, 0)} kPa)`;
}

export function formatVolume(litres: number): string {
  return `${formatSignificant(litres / L_PER_GALLON)} gal (${formatSignificant(litres)} L)`;
}

export function formatLength(metres: number): string {
  return `${formatSignificant(metres / M_PER_FOOT)} ft (${formatSignificant(metres)} m)`;
}

/** A share of 1 as a percentage without sign: 0.043 is "4.3 %". */
export function formatPercent(share: number): string {
  const percent = Math.abs(share) * 100;
  return `${round(percent, percent < 10 ? 1 : 0)} %`;
}

/** A stretch of time in at most two units: "45 s", "12 min", "3 h 20 min", "4 days". */
export function formatDuration(seconds: number): string {
  if (seconds < 90) return `${round(seconds, seconds < 10 ? 1 : 0)} s`;
  if (seconds < 5400) return `${round(seconds / 60, 0)} min`;
  if (seconds < 172_800) {
    const minutes = Math.round(seconds / 60);
    const rest = minutes % 60;
    return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`;
  }
  return `${round(seconds / DAY_S, seconds < 864_000 ? 1 : 0)} days`;
}

/** A number with so many significant figures, without a trailing exponent. */
export function formatSignificant(value: number, count = 2): string {
  if (value === 0) return '0';
  const digits = Math.max(0, count - 1 - Math.floor(Math.log10(Math.abs(value))));
  return round(value, Math.min(digits, 3));
}

/** Rounded for evidence: enough digits for a person, few enough to read. */
export function roundTo(value: number, digits = 2): number {
  const scale = 10 ** digits;
  return Math.round(value * scale) / scale;
}

function round(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? '0' : String(Number(text));
}
