/**
 * The units that people may write, by dimension, each with its way to SI and back. The list is the
 * contract's (section 5), and the SI units of the same dimensions. A unit that is not here is
 * refused and never guessed at: "m" is a length and no minute.
 */
import { hFromS, minFromS, sFromH, sFromMin } from '../units/duration.ts';
import { ftFromM, inFromM, mFromFt, mFromIn, mFromMm, mmFromM } from '../units/length.ts';
import { hpFromW, kwFromW, wFromHp, wFromKw } from '../units/power.ts';
import { barFromKpa, kpaFromBar, kpaFromPsi, psiFromKpa } from '../units/pressure.ts';
import { cFromF, fFromC } from '../units/temperature.ts';
import {
  galFromL,
  acreFtFromL,
  gpmFromLPerS,
  lFromAcreFt,
  lFromGal,
  lFromM3,
  lPerMinFromLPerS,
  lPerSFromGpm,
  lPerSFromLPerMin,
  lPerSFromM3PerH,
  m3FromL,
  m3PerHFromLPerS,
} from '../units/water.ts';

export const DIMENSIONS = [
  'pressure',
  'length',
  'volume',
  'flow',
  'power',
  'current',
  'voltage',
  'temperature',
  'duration',
  'resistance',
  'capacitance',
] as const;
export type Dimension = (typeof DIMENSIONS)[number];

export interface Unit {
  /** As it is printed. */
  name: string;
  /** Other ways to write it; capitals do not count. */
  aliases?: readonly string[];
  /**
   * Further ways in which capitals do count: a million ohms and a thousandth of one differ by
   * nothing else.
   */
  caseSensitiveAliases?: readonly string[];
  toSi: (value: number) => number;
  fromSi: (si: number) => number;
}

const scaleBy =
  (factor: number) =>
  (value: number): number =>
    value * factor;
const identity = (value: number): number => value;

/**
 * SI here is kPa, m, L, L/s, W, A, V, C, s, ohm and uF: the units that names inside end in
 * (`cutInKpa`, `volumeL`). First unit: the SI one.
 */
export const UNITS = {
  pressure: [
    { name: 'kPa', toSi: identity, fromSi: identity },
    { name: 'psi', aliases: ['psig'], toSi: kpaFromPsi, fromSi: psiFromKpa },
    { name: 'bar', toSi: kpaFromBar, fromSi: barFromKpa },
  ],
  length: [
    { name: 'm', toSi: identity, fromSi: identity },
    { name: 'ft', aliases: ['feet', 'foot'], toSi: mFromFt, fromSi: ftFromM },
    { name: 'in', aliases: ['inch', 'inches'], toSi: mFromIn, fromSi: inFromM },
    { name: 'mm', toSi: mFromMm, fromSi: mmFromM },
  ],
  volume: [
    { name: 'L', aliases: ['litre', 'litres', 'liter', 'liters'], toSi: identity, fromSi: identity },
    { name: 'gal', aliases: ['gallon', 'gallons'], toSi: lFromGal, fromSi: galFromL },
    { name: 'm3', aliases: ['m³'], toSi: lFromM3, fromSi: m3FromL },
    { name: 'acre-ft', aliases: ['acre-feet', 'acre-foot'], toSi: lFromAcreFt, fromSi: acreFtFromL },
  ],
  flow: [
    { name: 'L/s', toSi: identity, fromSi: identity },
    { name: 'gpm', aliases: ['gal/min'], toSi: lPerSFromGpm, fromSi: gpmFromLPerS },
    { name: 'L/min', toSi: lPerSFromLPerMin, fromSi: lPerMinFromLPerS },
    { name: 'm3/h', aliases: ['m³/h'], toSi: lPerSFromM3PerH, fromSi: m3PerHFromLPerS },
  ],
  power: [
    { name: 'W', toSi: identity, fromSi: identity },
    { name: 'hp', toSi: wFromHp, fromSi: hpFromW },
    { name: 'kW', toSi: wFromKw, fromSi: kwFromW },
  ],
  current: [{ name: 'A', aliases: ['amp', 'amps'], toSi: identity, fromSi: identity }],
  voltage: [{ name: 'V', aliases: ['volt', 'volts'], toSi: identity, fromSi: identity }],
  temperature: [
    { name: 'C', aliases: ['°C'], toSi: identity, fromSi: identity },
    { name: 'F', aliases: ['°F'], toSi: cFromF, fromSi: fFromC },
  ],
  duration: [
    { name: 's', aliases: ['sec', 'second', 'seconds'], toSi: identity, fromSi: identity },
    { name: 'min', aliases: ['minute', 'minutes'], toSi: sFromMin, fromSi: minFromS },
    { name: 'h', aliases: ['hour', 'hours'], toSi: sFromH, fromSi: hFromS },
  ],
  resistance: [
    { name: 'ohm', aliases: ['ohms', '\u03a9', '\u2126'], toSi: identity, fromSi: identity },
    {
      name: 'kohm',
      aliases: ['kohms', 'kilohm', 'kilohms', 'k\u03a9', 'k\u2126'],
      toSi: scaleBy(1e3),
      fromSi: scaleBy(1e-3),
    },
    {
      name: 'megohm',
      aliases: ['megohms', 'meg'],
      caseSensitiveAliases: ['M\u03a9', 'M\u2126', 'Mohm', 'Mohms'],
      toSi: scaleBy(1e6),
      fromSi: scaleBy(1e-6),
    },
  ],
  capacitance: [
    {
      name: 'uF',
      // "mfd" is what motor capacitors are marked with, and never a thousandth of a farad (common
      // practice, no source).
      aliases: ['\u00b5F', '\u03bcF', 'mfd', 'microfarad', 'microfarads'],
      toSi: identity,
      fromSi: identity,
    },
  ],
} as const satisfies Record<Dimension, readonly Unit[]>;

/** Names of the units of one dimension. */
export type UnitName<D extends Dimension> = (typeof UNITS)[D][number]['name'];

/**
 * The unit that `text` names in this dimension, capitals apart where they may be; undefined where
 * there is none.
 */
export function findUnit(dimension: Dimension, text: string): Unit | undefined {
  const wanted = text.toLowerCase();
  const units: readonly Unit[] = UNITS[dimension];
  return units.find(
    (unit) =>
      unit.caseSensitiveAliases?.includes(text) === true ||
      [unit.name, ...(unit.aliases ?? [])].some((name) => name.toLowerCase() === wanted),
  );
}
