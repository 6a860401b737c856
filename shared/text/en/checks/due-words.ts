/**
 * The checks that come round on every well: what each is called, why it is worth doing, and how to
 * look, worded for the owner with a telephone in the hand. Nothing here asks anybody to open an
 * electrical box or a well; what needs licensed people says so.
 */
import type { Dimension } from '../../../quantity/units.ts';
import type { Caution } from '../cautions.ts';
import { SEASON_WORDS, SERVICE_WORDS } from './due-words-more.ts';

export const DUE_KINDS = [
  'water-test',
  'precharge',
  'pressure-gauge',
  'relief-valve',
  'well-cap',
  'node-calibration',
  'freeze',
  'stock-water',
  'treatment',
  'uv-lamp',
  'backflow',
  'static-level',
  'winterize',
  'spring-start',
  'after-flood',
  'after-lightning',
  'after-dry-well',
] as const;
export type DueKind = (typeof DUE_KINDS)[number];

/** Lists for a season, or for after something happened. */
export function isOccasionList(check: string): boolean {
  return Object.hasOwn(SEASON_WORDS, check);
}

export interface DueWords {
  title: string;
  why: string;
  /** Steps in their order. */
  steps: readonly string[];
  cautions: readonly Caution[];
  /** Where the interval comes from. */
  source: string;
  /** What is measured, where something is. */
  value?: { question: string; dimension: Dimension };
}

export const DUE_WORDS: Record<DueKind, DueWords> = {
  'water-test': {
    title: 'Water test',
    why: 'Nobody tests a private well but its owner. Bacteria and nitrate have neither taste nor smell.',
    steps: [
      'Ask the health department for a certified laboratory, and the laboratory for its bottles and how to fill them.',
      'Draw before any treatment, if the well itself is meant. Take the aerator off the tap, and disinfect the tap as the laboratory says. Let cold water run for five minutes.',
      'Do not rinse the bottles: what is in them belongs there. Touch neither the rim nor the inside of the cap.',
      'For lead and copper draw the first water after it has stood for six hours.',
      'Keep the bottles for bacteria cold, and bring them within 24 hours, or within the time that the laboratory gives.',
      'Enter the results on the water page.',
    ],
    cautions: ['test-results'],
    source:
      'EPA, “Protect Your Home’s Water”: each year, and at once after a flood or any repair. How to draw: county and laboratory sheets.',
  },
  precharge: {
    title: 'Tank precharge',
    why: 'A tank that has lost its air makes the pump start far too often, and wears it out.',
    steps: [
      'Pump off and locked off, a tap open, until the gauge reads zero and no water comes.',
      'Read the air at the tank’s valve with a tire gauge. If water comes out there, the bladder is torn: stop, and have the tank replaced.',
      'Add or let off air to reach the target, never over the pressure on the tank’s plate.',
      'Close the tap and switch the pump on again. A switch with a low-pressure cut-off is then reset as its own instructions say.',
    ],
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'local-rules', 'well-pit'],
    source:
      'Target: 2 psi under cut-in (Water Systems Council, “Pressure Tanks”). Each year: common practice.',
    value: { question: 'Air pressure as found', dimension: 'pressure' },
  },
  'pressure-gauge': {
    title: 'Pressure gauge',
    why: 'A dial that sticks or lies hides a bad switch, and a wrong precharge is set by it.',
    steps: [
      'With the tank drained for the precharge, the dial must stand at zero.',
      'Under pressure, compare the dial with the pressure on the well’s page. Tap it: the needle should not jump.',
    ],
    cautions: ['tank-pressure', 'well-pit'],
    source: 'Each year: common practice.',
    value: { question: 'The dial with the tank drained', dimension: 'pressure' },
  },
  'relief-valve': {
    title: 'Relief valve',
    why: 'If the switch sticks, this valve is what keeps tank and pipes from bursting.',
    steps: [
      'Look: no drips, no rust or scale at the outlet, the outlet free and led to where it hurts nobody.',
      'Whether it still opens is tried by whoever services the system, by the valve’s own instructions.',
    ],
    cautions: ['relief-valve', 'local-rules', 'well-pit'],
    source: 'The Driller, “Plumbing the Pressure Tank”: each year.',
  },
  'well-cap': {
    title: 'Well cap and casing',
    why: 'Insects, mice and rain get in by a loose cap or a cracked casing, and bacteria with them.',
    steps: [
      'Look from outside: cap tight, bolts there, screen and cable entry whole, no crack in the casing.',
      'The ground slopes away from it; no puddles, no fuel, spray or manure stored near.',
      'Leave the cap closed. What is broken is for a licensed well contractor.',
    ],
    cautions: ['well-cap', 'well-pit', 'contamination'],
    source: 'CDC, “Well Testing”: each spring.',
  },
  'node-calibration': {
    title: 'Sensors against an instrument',
    why: 'Everything here rests on what clamp and transducer say. Both drift.',
    steps: [
      'Pressure: compare the well’s page with a good gauge at the tank, once near cut-in and once near cut-out.',
      'Current: an electrician compares the clamp with a meter of their own. Nobody else opens a box for it.',
      'Where they differ, enter both points as a calibration.',
    ],
    cautions: ['electrician', 'only-watches', 'well-pit'],
    source: 'Each year: common practice.',
  },
  freeze: {
    title: 'Ready for frost',
    why: 'A frozen pipe bursts, and a frozen line to the switch lets the pump run on or not start.',
    steps: [
      'Heater, heat tape and thermostat work; insulation is whole and dry; the door shuts.',
      'Hoses off, outside lines drained. What stands empty in winter is drained or laid up.',
      'Electric heaters stand dry and off the floor, on an outlet with ground-fault protection. Fixed ones are fitted and checked by an electrician.',
    ],
    cautions: ['freezing', 'electrician'],
    source: 'The day is common practice; set your own.',
  },
  'stock-water': {
    title: 'Water for stock',
    why: 'Stock can’t wait for a repair. A second source must be there before the pump fails.',
    steps: [
      'Trough, float valve and overflow work; it fills again as fast as the herd drinks.',
      'The second source is there and full, and whoever minds the stock knows how to bring it.',
      'A heated trough: have an electrician check its cable and ground.',
    ],
    cautions: ['stock-water', 'closed-space'],
    source:
      'Kansas State University, Livestock Watering Handbook, for the second source. Twice a year: common practice.',
  },
  ...SERVICE_WORDS,
  ...SEASON_WORDS,
};

export function isDueKind(text: string): text is DueKind {
  return Object.hasOwn(DUE_WORDS, text);
}

export const OUTCOME_TEXT = {
  right: 'Normal',
  'put-right': 'Was not right, put right',
  'not-right': 'Not right, still to be done',
  'not-done': 'Could not be done',
} as const;
