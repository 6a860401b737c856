/** Readings in words: what each is, how it is usually written, and how somebody takes it who may. What is read in an open box is never explained. */
import { printQuantity, type UnitSystem } from '../quantity/print-quantity.ts';
import { sayDuration, sayResistance } from './format.ts';

/** As src/book/read-reading.ts names them. */
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
  like: readonly [us: string, metric: string];
  how?: string;
  say: (si: number, units: UnitSystem) => string;
}

const level = (si: number, units: UnitSystem): string => printQuantity(si, 'length', units, 1);
const pressure = (si: number, units: UnitSystem): string =>
  printQuantity(si, 'pressure', units, units === 'us' ? 1 : 0);
const volts = (si: number, units: UnitSystem): string => printQuantity(si, 'voltage', units);

export const READING_WORDS: Record<ReadingName, ReadingWords> = {
  'static-level': {
    title: 'Static level',
    like: ['41 ft', '12.5 m'],
    how: 'As a level sensor shows it or a well contractor sounded it, from the ground down to standing water, after some hours of rest. Negative where the well flows by itself. Leave the well cap closed for it.',
    say: level,
  },
  'pumping-level': {
    title: 'Pumping level',
    like: ['96 ft', '29 m'],
    how: 'As a level sensor shows it or a well contractor sounded it, from the ground down to the water while the pump runs, once it falls no further. Write the flow into the remark. Leave the well cap closed for it.',
    say: level,
  },
  precharge: {
    title: 'Tank precharge',
    like: ['38 psi', '260 kPa'],
    how: 'Read with the pump switched off and locked off, a tap open and the tank drained until the gauge reads zero. With water pressure on it is no precharge.',
    say: pressure,
  },
  'cut-in': {
    title: 'Cut-in by the gauge',
    like: ['40 psi', '276 kPa'],
    how: 'What the gauge shows as the pump starts.',
    say: pressure,
  },
  'cut-out': {
    title: 'Cut-out by the gauge',
    like: ['60 psi', '414 kPa'],
    how: 'What the gauge shows as the pump stops.',
    say: pressure,
  },
  'fill-time': {
    title: 'Time of a fill',
    like: ['95 s', '95 s'],
    how: 'From start to stop with every tap shut.',
    say: sayDuration,
  },
  amps: { title: 'Running amps', like: ['7.9 A', '7.9 A'], say: (si) => printQuantity(si, 'current', 'us') },
  flow: {
    title: 'Flow',
    like: ['6.3 gpm', '24 L/min'],
    how: 'By bucket and watch: how much ran, and how long it took.',
    say: (si, units) => printQuantity(si, 'flow', units, 2),
  },
  'volts-resting': { title: 'Voltage, pump at rest', like: ['238 V', '238 V'], say: volts },
  'volts-running': { title: 'Voltage, pump running', like: ['231 V', '231 V'], say: volts },
  winding: { title: 'Winding resistance', like: ['3.2 ohm', '3.2 ohm'], say: sayResistance },
  insulation: { title: 'Insulation resistance', like: ['500 megohm', '500 megohm'], say: sayResistance },
  capacitor: {
    title: 'Capacitor',
    like: ['105 uF', '105 uF'],
    say: (si) => printQuantity(si, 'capacitance', 'us'),
  },
};

/** What anybody can read at a tap or a gauge, or was told by the contractor who sounded the well. */
export const BROUGHT: readonly ReadingName[] = [
  'static-level',
  'pumping-level',
  'precharge',
  'flow',
  'cut-in',
  'cut-out',
  'fill-time',
];
/** What is read inside a box: results of whoever may, entered and never guided. */
export const QUALIFIED: readonly ReadingName[] = [
  'winding',
  'insulation',
  'capacitor',
  'volts-resting',
  'volts-running',
  'amps',
];

export function readingWords(what: string): ReadingWords | undefined {
  return Object.entries(READING_WORDS).find(([name]) => name === what)?.[1];
}

/** Said wherever results from inside a box are entered. */
export const QUALIFIED_ONLY =
  'These are results of a qualified person who had the box open and locked out already, for work of their own. Nobody is asked to open one for this page: without the results, leave it closed and leave the fields empty.';

/** Why the air charge did not come out of a measured draw. */
export const DRAW_WORDS = {
  'pressure-did-not-fall': 'The pressure has to be lower after the draw than before it.',
  'fell-too-little': 'The pressure fell too little for the gauge to tell. Draw more.',
  'more-than-the-tank':
    'More was drawn than the whole tank holds: the pump must have run, or the size on the card is wrong.',
  'no-tank-size':
    'The card does not say how large the tank is. Only with it does the draw become a precharge.',
} as const;
