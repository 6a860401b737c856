/**
 * Evidence as people read it: the unit stands at the end of a figure's name (`cutInKpa`, `ranS`,
 * `leakLPerDay`), so the value can be printed in people's units and the name in words: "Cut in: 40
 * psi". A name without a unit is a count.
 */
import type { Evidence } from '../../api/events.ts';
import { formatNumber, formatQuantity, type UnitSystem } from '../../quantity/format-quantity.ts';
import { HOUR_S } from '../../units/duration.ts';
import { formatDuration } from './format.ts';

type Printer = (value: number, units: UnitSystem) => string;

/** Longest ending first: `LPerDay` ends in no `S`, but `KpaPerMin` holds a `Kpa`. */
const UNIT_SUFFIXES: readonly [string, Printer][] = [
  ['LPerDay', (value, units) => `${formatQuantity(value, 'volume', units)} a day`],
  ['KpaPerMin', (value, units) => `${formatQuantity(value, 'pressure', units, 1)} a minute`],
  ['KpaPerH', (value, units) => `${formatQuantity(value, 'pressure', units, 1)} an hour`],
  ['LPerS', (value, units) => formatQuantity(value, 'flow', units)],
  ['PerDay', (value) => `${formatNumber(value, 1)} a day`],
  ['Percent', (value) => `${formatNumber(value, 1)} %`],
  ['Share', (value) => `${formatNumber(value * 100, 0)} %`],
  ['Amps', (value, units) => formatQuantity(value, 'current', units)],
  ['Volts', (value, units) => formatQuantity(value, 'voltage', units)],
  ['Kpa', (value, units) => formatQuantity(value, 'pressure', units)],
  ['Min', (value) => formatDuration(value * 60)],
  ['Ms', (value) => formatDuration(value / 1000)],
  ['C', (value, units) => formatQuantity(value, 'temperature', units)],
  ['H', (value) => formatDuration(value * HOUR_S)],
  ['L', (value, units) => formatQuantity(value, 'volume', units)],
  ['M', (value, units) => formatQuantity(value, 'length', units)],
  ['S', (value) => formatDuration(value)],
  ['V', (value, units) => formatQuantity(value, 'voltage', units)],
  ['W', (value, units) => formatQuantity(value, 'power', units)],
];

/** Names that are a unit as they stand, with how they are called then. */
const UNIT_NAMES: Record<string, [name: string, print: Printer]> = {
  amps: ['Amps', (value, units) => formatQuantity(value, 'current', units)],
  amps2: ['Amps, line 2', (value, units) => formatQuantity(value, 'current', units)],
  amps3: ['Amps, line 3', (value, units) => formatQuantity(value, 'current', units)],
  volts: ['Volts', (value, units) => formatQuantity(value, 'voltage', units)],
  kpa: ['Pressure', (value, units) => formatQuantity(value, 'pressure', units)],
  unbalance: ['Unbalance', (value) => `${formatNumber(value * 100, 1)} %`],
  litresPerHour: ['An hour', (value, units) => formatQuantity(value, 'volume', units, 1)],
};
/** Names that say little by themselves. */
const FIGURE_NAMES: Record<string, string> = {
  airKpa: 'Air charge',
  normalKpa: 'Should be',
  fillS: 'A fill takes',
  normalS: 'A fill took',
  leastS: 'It would take at least',
  fillShare: 'A fill against usual',
  deliveryShare: 'Delivery against usual',
  runsLoseShare: 'Runs lose besides',
  levelFallM: 'The water stands lower by',
  bandShare: 'Of the band, a run crosses',
  ampsShare: 'Amps against usual',
  voltsShare: 'Volts against the plate',
  normal: 'Usual',
  normalAmps: 'Usual amps',
  normalRanS: 'A usual run',
  nominalVolts: 'Volts on the plate',
  endedKpa: 'Ended at',
  heaterRiseKpa: 'A heater raises it by at most',
  inS: 'Within',
  forS: 'For',
  riseDelayS: 'Pressure moves after',
  lateRiseS: 'Pressure moves after',
  promptRiseS: 'Pressure moves after',
};
/**
 * What the card says weighs, and is no figure; a share or a multiple is of two figures that stand
 * here too.
 */
const HIDDEN_FIGURES: ReadonlySet<string> = new Set([
  'phase',
  'wires',
  'pumpKind',
  'tankKind',
  'ageYears',
  'share',
  'times',
]);

/** One line a figure: "Ran: 48 min". */
export function figureLines(evidence: Evidence, units: UnitSystem): string[] {
  return Object.entries(evidence)
    .filter(([name]) => !HIDDEN_FIGURES.has(name))
    .map(([name, value]) => figureLine(name, value, units));
}

function figureLine(name: string, value: number | string, units: UnitSystem): string {
  if (typeof value === 'string') return `${nameText(name)}: ${value}`;
  const whole = UNIT_NAMES[name];
  if (whole) return `${whole[0]}: ${whole[1](value, units)}`;
  const ending = UNIT_SUFFIXES.find(([end]) => name.endsWith(end) && name.length > end.length);
  if (!ending) return `${FIGURE_NAMES[name] ?? nameText(name)}: ${formatNumber(value, 2)}`;
  const [end, print] = ending;
  const quantity = end === 'Amps' || end === 'Volts' ? ` ${end}` : '';
  return `${FIGURE_NAMES[name] ?? nameText(name.slice(0, -end.length) + quantity)}: ${print(value, units)}`;
}

/** "Cut in" for `cutIn`. */
function nameText(name: string): string {
  const text = name.replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return text.charAt(0).toUpperCase() + text.slice(1);
}
