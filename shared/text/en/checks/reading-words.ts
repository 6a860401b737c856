/**
 * Readings in words: what each is, how it is usually written, and how a qualified person takes it.
 * How to read something in an open box is never explained.
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
      'Depth from the ground down to standing water after several hours of rest, from a level sensor or measured by a well contractor. Negative for a flowing well. Leave the well cap closed.',
    format: level,
  },
  'pumping-level': {
    title: 'Pumping level',
    examples: ['96 ft', '29 m'],
    instructions:
      'Depth from the ground down to the water while the pump runs, once it stops falling, from a level sensor or measured by a well contractor. Enter the flow in the note. Leave the well cap closed.',
    format: level,
  },
  precharge: {
    title: 'Tank precharge',
    examples: ['38 psi', '260 kPa'],
    instructions:
      'Read it with the pump switched off and locked out, a tap open and the tank drained until the gauge reads zero. With water pressure in the tank, the reading is not the precharge.',
    format: pressure,
  },
  'cut-in': {
    title: 'Cut-in on the gauge',
    examples: ['40 psi', '276 kPa'],
    instructions: 'The gauge reading as the pump starts.',
    format: pressure,
  },
  'cut-out': {
    title: 'Cut-out on the gauge',
    examples: ['60 psi', '414 kPa'],
    instructions: 'The gauge reading as the pump stops.',
    format: pressure,
  },
  'fill-time': {
    title: 'Fill time',
    examples: ['95 s', '95 s'],
    instructions: 'From start to stop with all taps closed.',
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
    instructions: 'Use a bucket and a watch: enter the amount and the time to fill it.',
    format: (si, units) => formatQuantity(si, 'flow', units, 2),
  },
  'volts-resting': { title: 'Voltage, pump off', examples: ['238 V', '238 V'], format: volts },
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
 * What anybody can read at a tap or a gauge, or gets from the contractor who measured the level.
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
/** What is read inside a box: a qualified person's results, which are entered and never guided. */
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

/** Shown wherever results from inside a box are entered. */
export const QUALIFIED_ONLY_NOTE =
  'These are results from a qualified person who already had the box open and locked out for other work. Do not open a box for this page: without results, leave the box closed and the fields empty.';

/** Why a measured draw gave no precharge. */
export const DRAW_PROBLEM_TEXT = {
  'pressure-did-not-fall': 'The pressure must be lower after the draw than before it.',
  'fell-too-little': 'The pressure fell too little to read on the gauge. Draw more.',
  'more-than-the-tank':
    'More was drawn than the whole tank holds: the pump must have run, or the tank size on the card is wrong.',
  'no-tank-size': 'The tank size is not on the card. It is needed to calculate the precharge.',
} as const;
