/**
 * Evidence as people read it: the unit stands at the end of a figure's name (`cutInKpa`, `ranS`,
 * `leakLPerDay`), so the value can be printed in people's units: "Cut-in: 40 psi". A name without a
 * unit is a count.
 */
import type { Evidence } from '../../api/events.ts';
import { formatNumber, formatQuantity, type UnitSystem } from '../../quantity/format-quantity.ts';
import { HOUR_S } from '../../units/duration.ts';
import { FIGURE_NAMES, FIGURE_VALUES } from './figure-names.ts';
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

/** Names that are a unit as they stand. */
const UNIT_NAMES: Record<string, Printer> = {
  amps: (value, units) => formatQuantity(value, 'current', units),
  amps2: (value, units) => formatQuantity(value, 'current', units),
  amps3: (value, units) => formatQuantity(value, 'current', units),
  volts: (value, units) => formatQuantity(value, 'voltage', units),
  kpa: (value, units) => formatQuantity(value, 'pressure', units),
  unbalance: (value) => `${formatNumber(value * 100, 1)} %`,
  litresPerHour: (value, units) => formatQuantity(value, 'volume', units, 1),
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
  'withSite',
]);

/** One line a figure: "Run time: 48 min". */
export function figureLines(evidence: Evidence, units: UnitSystem): string[] {
  return Object.entries(evidence)
    .filter(([name]) => !HIDDEN_FIGURES.has(name))
    .map(([name, value]) => figureLine(name, value, units));
}

function figureLine(name: string, value: number | string, units: UnitSystem): string {
  const title = ownText(FIGURE_NAMES, name) ?? nameFromCode(name);
  if (typeof value === 'string') return `${title}: ${ownText(FIGURE_VALUES, value) ?? value}`;
  const [, print] = UNIT_SUFFIXES.find(([end]) => name.endsWith(end) && name.length > end.length) ?? [];
  return `${title}: ${(UNIT_NAMES[name] ?? print ?? formatCount)(value, units)}`;
}

/** What a table has of its own: a figure may be called `constructor`. */
function ownText(texts: Readonly<Record<string, string>>, name: string): string | undefined {
  return Object.hasOwn(texts, name) ? texts[name] : undefined;
}

function formatCount(value: number): string {
  return formatNumber(value, 2);
}

/** "Level" for `levelM`: a figure that another version reported and this one has no name for. */
function nameFromCode(name: string): string {
  const [end = ''] = UNIT_SUFFIXES.find(([one]) => name.endsWith(one) && name.length > one.length) ?? [];
  const quantity = end === 'Amps' || end === 'Volts' ? end : '';
  const words = `${name.slice(0, name.length - end.length)}${quantity}`;
  const text = words.replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return text.charAt(0).toUpperCase() + text.slice(1);
}
