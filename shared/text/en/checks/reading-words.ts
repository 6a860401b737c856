/**
 * Readings in words: what each is, how it is usually written, and how somebody takes it who may.
 * What is read in an open box is never explained.
 */
import { formatQuantity, type UnitSystem } from '../../../quantity/format-quantity.ts';
import { formatDuration, formatResistance } from '../format.ts';

/** As src/logbook/entries/read-reading.ts names them. */
export type ReadingName =
  | 'static-level'
  | 'pumping-level'
  | 'precharge'
  | 'cut-in'
  | 'cut-out'
  | 'fill-time'
  | 'amps'
  | 'flow'
  | 'volts-resting'
  | 'volts-running'
  | 'winding'
  | 'insulation'
  | 'capacitor';

interface ReadingWords {
  title: string;
  /** As it may be written, in US and in metric units. */
  examples: readonly [us: string, metric: string];
  instructions?: string;
  format: (si: number, units: UnitSystem) => string;
}

const level = (si: number, units: UnitSystem): string => formatQuantity(si, 'length', units, 1);
const pressure = (si: number, units: UnitSystem): string =>
  formatQuantity(si, 'pressure', units, units === 'us' ? 1 : 0);
const volts = (si: number, units: UnitSystem): string => formatQuantity(si, 'voltage', units);

export const READING_WORDS: Record<ReadingName, ReadingWords> = {
  'static-level': {
    title: 'Static level',
    examples: ['41 ft', '12.5 m'],
    instructions:
      'As a level sensor shows it or a well contractor sounded it, from the ground down to standing water, after some hours of rest. Negative where the well flows by itself. Leave the well cap closed for it.',
    format: level,
  },
  'pumping-level': {
    title: 'Pumping level',
    examples: ['96 ft', '29 m'],
    instructions:
      'As a level sensor shows it or a well contractor sounded it, from the ground down to the water while the pump runs, once it falls no further. Write the flow into the remark. Leave the well cap closed for it.',
    format: level,
  },
  precharge: {
    title: 'Tank precharge',
    examples: ['38 psi', '260 kPa'],
    instructions:
      'Read with the pump switched off and locked off, a tap open and the tank drained until the gauge reads zero. With water pressure on it is no precharge.',
    format: pressure,
  },
  'cut-in': {
    title: 'Cut-in by the gauge',
    examples: ['40 psi', '276 kPa'],
    instructions: 'What the gauge shows as the pump starts.',
    format: pressure,
  },
  'cut-out': {
    title: 'Cut-out by the gauge',
    examples: ['60 psi', '414 kPa'],
    instructions: 'What the gauge shows as the pump stops.',
    format: pressure,
  },
  'fill-time': {
    title: 'Time of a fill',
    examples: ['95 s', '95 s'],
    instructions: 'From start to stop with every tap shut.',
    format: formatDuration,
  },
  amps: {
    title: 'Running amps',
    examples: ['7.9 A', '7.9 A'],
    format: (si) => formatQuantity(si, 'current', 'us'),
  },
  flow: {
    title: 'Flow',
    examples: ['6.3 gpm', '24 L/min'],
    instructions: 'By bucket and watch: how much ran, and how long it took.',
    format: (si, units) => formatQuantity(si, 'flow', units, 2),
  },
  'volts-resting': { title: 'Voltage, pump at rest', examples: ['238 V', '238 V'], format: volts },
  'volts-running': { title: 'Voltage, pump running', examples: ['231 V', '231 V'], format: volts },
  winding: { title: 'Winding resistance', examples: ['3.2 ohm', '3.2 ohm'], format: formatResistance },
  insulation: {
    title: 'Insulation resistance',
    examples: ['500 megohm', '500 megohm'],
    format: formatResistance,
  },
  capacitor: {
    title: 'Capacitor',
    examples: ['105 uF', '105 uF'],
    format: (si) => formatQuantity(si, 'capacitance', 'us'),
  },
};

/**
 * What anybody can read at a tap or a gauge, or was told by the contractor who sounded the well.
 */
export const UNQUALIFIED_READINGS: readonly ReadingName[] = [
  'static-level',
  'pumping-level',
  'precharge',
  'flow',
  'cut-in',
  'cut-out',
  'fill-time',
];
/** What is read inside a box: results of whoever may, entered and never guided. */
export const QUALIFIED_READINGS: readonly ReadingName[] = [
  'winding',
  'insulation',
  'capacitor',
  'volts-resting',
  'volts-running',
  'amps',
];

export function findReadingWords(what: string): ReadingWords | undefined {
  return Object.entries(READING_WORDS).find(([name]) => name === what)?.[1];
}

/** Said wherever results from inside a box are entered. */
export const QUALIFIED_ONLY_NOTE =
  'These are results of a qualified person who had the box open and locked out already, for work of their own. Nobody is asked to open one for this page: without the results, leave it closed and leave the fields empty.';

/** Why the air charge did not come out of a measured draw. */
export const DRAW_PROBLEM_TEXT = {
  'pressure-did-not-fall': 'The pressure has to be lower after the draw than before it.',
  'fell-too-little': 'The pressure fell too little for the gauge to tell. Draw more.',
  'more-than-the-tank':
    'More was drawn than the whole tank holds: the pump must have run, or the size on the card is wrong.',
  'no-tank-size':
    'The card does not say how large the tank is. Only with it does the draw become a precharge.',
} as const;
