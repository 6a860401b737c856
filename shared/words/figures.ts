/**
 * Evidence as people read it: the unit stands at the end of a figure's name (`cutInKpa`, `ranS`, `leakLPerDay`), so the value can be
 * printed in people's units and the name in words: "Cut in: 40 psi". A name without a unit is a count.
 */
import type { Evidence } from '../api/events.ts';
import { printNumber, printQuantity, type UnitSystem } from '../quantity/print-quantity.ts';
import { sayDuration } from './format.ts';

type Printer = (value: number, units: UnitSystem) => string;

/** Longest ending first: `LPerDay` ends in no `S`, but `KpaPerMin` holds a `Kpa`. */
const ENDINGS: readonly [string, Printer][] = [
  ['LPerDay', (value, units) => `${printQuantity(value, 'volume', units)} a day`],
  ['KpaPerMin', (value, units) => `${printQuantity(value, 'pressure', units, 1)} a minute`],
  ['KpaPerH', (value, units) => `${printQuantity(value, 'pressure', units, 1)} an hour`],
  ['LPerS', (value, units) => printQuantity(value, 'flow', units)],
  ['PerDay', (value) => `${printNumber(value, 1)} a day`],
  ['Percent', (value) => `${printNumber(value, 1)} %`],
  ['Share', (value) => `${printNumber(value * 100, 0)} %`],
  ['Amps', (value, units) => printQuantity(value, 'current', units)],
  ['Volts', (value, units) => printQuantity(value, 'voltage', units)],
  ['Kpa', (value, units) => printQuantity(value, 'pressure', units)],
  ['Min', (value) => sayDuration(value * 60)],
  ['Ms', (value) => sayDuration(value / 1000)],
  ['C', (value, units) => printQuantity(value, 'temperature', units)],
  ['H', (value) => sayDuration(value * 3600)],
  ['L', (value, units) => printQuantity(value, 'volume', units)],
  ['M', (value, units) => printQuantity(value, 'length', units)],
  ['S', (value) => sayDuration(value)],
  ['V', (value, units) => printQuantity(value, 'voltage', units)],
  ['W', (value, units) => printQuantity(value, 'power', units)],
];

/** Names that are a unit as they stand, with how they are called then. */
const WHOLE_NAMES: Record<string, [name: string, print: Printer]> = {
  amps: ['Amps', (value, units) => printQuantity(value, 'current', units)],
  amps2: ['Amps, line 2', (value, units) => printQuantity(value, 'current', units)],
  amps3: ['Amps, line 3', (value, units) => printQuantity(value, 'current', units)],
  volts: ['Volts', (value, units) => printQuantity(value, 'voltage', units)],
  kpa: ['Pressure', (value, units) => printQuantity(value, 'pressure', units)],
  unbalance: ['Unbalance', (value) => `${printNumber(value * 100, 1)} %`],
  litresPerHour: ['An hour', (value, units) => printQuantity(value, 'volume', units, 1)],
};
/** Names that say little by themselves. */
const NAMES: Record<string, string> = {
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
/** What the card says weighs, and is no figure; a share or a multiple is of two figures that stand here too. */
const NO_FIGURES: ReadonlySet<string> = new Set(['phase', 'wires', 'pumpKind', 'ageYears', 'share', 'times']);

/** One line a figure: "Ran: 48 min". */
export function figureLines(evidence: Evidence, units: UnitSystem): string[] {
  return Object.entries(evidence)
    .filter(([name]) => !NO_FIGURES.has(name))
    .map(([name, value]) => figureLine(name, value, units));
}

function figureLine(name: string, value: number | string, units: UnitSystem): string {
  if (typeof value === 'string') return `${words(name)}: ${value}`;
  const whole = WHOLE_NAMES[name];
  if (whole) return `${whole[0]}: ${whole[1](value, units)}`;
  const ending = ENDINGS.find(([end]) => name.endsWith(end) && name.length > end.length);
  if (!ending) return `${NAMES[name] ?? words(name)}: ${printNumber(value, 2)}`;
  const [end, print] = ending;
  const quantity = end === 'Amps' || end === 'Volts' ? ` ${end}` : '';
  return `${NAMES[name] ?? words(name.slice(0, -end.length) + quantity)}: ${print(value, units)}`;
}

/** "Cut in" for `cutIn`. */
function words(name: string): string {
  const text = name.replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return text.charAt(0).toUpperCase() + text.slice(1);
}
