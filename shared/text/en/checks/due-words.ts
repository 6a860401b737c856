/**
 * The recurring checks of every well: what each is called, why it is worth doing, and its steps,
 * written for the owner with a phone. Nothing here asks anybody to open an electrical box or a
 * well; what needs licensed people says so.
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

/** Lists of steps for a season, or for after an event. */
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
  /** What is measured, if anything. */
  value?: { question: string; dimension: Dimension };
}

export const DUE_WORDS: Record<DueKind, DueWords> = {
  'water-test': {
    title: 'Water test',
    why: 'No agency tests a private well: that is up to its owner. Bacteria and nitrate have no taste or smell.',
    steps: [
      'Ask the health department for a certified laboratory, and the laboratory for its bottles and how to fill them.',
      'To test the well itself, take the sample before any treatment. Take the aerator off the tap, and disinfect the tap as the laboratory says. Let cold water run for five minutes.',
      'Do not rinse the bottles: they may hold a preservative. Touch neither the rim nor the inside of the cap.',
      'For lead and copper, take the first water from the tap after it has stood in the pipes for six hours.',
      'Keep the bottles for bacteria cold. Deliver them within 24 hours, or within the time that the laboratory gives.',
      'Enter the results on the water page.',
    ],
    cautions: ['test-results'],
    source:
      'EPA, “Protect Your Home’s Water”: each year, and at once after a flood or any repair. How to take the sample: county and laboratory sheets.',
  },
  precharge: {
    title: 'Tank precharge',
    why: 'A tank that has lost its air makes the pump start far too often. That wears it out.',
    steps: [
      'Switch the pump off and lock it out. Open a tap and wait until the gauge reads zero and no water comes.',
      'Read the air pressure at the tank’s air valve with a tire gauge. If water comes out there, the bladder is torn: stop, and have the tank replaced.',
      'Add or release air to reach the target. Never exceed the pressure on the tank’s nameplate.',
      'Close the tap and switch the pump on again. Then reset a switch with a low-pressure cut-off as its own instructions say.',
    ],
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'local-rules', 'well-pit'],
    source:
      'Target: 2 psi below cut-in (Water Systems Council, “Pressure Tanks”). Each year: common practice.',
    value: { question: 'Air pressure as found', dimension: 'pressure' },
  },
  'pressure-gauge': {
    title: 'Pressure gauge',
    why: 'A gauge that sticks or reads wrong hides a bad switch and leads to a wrong precharge.',
    steps: [
      'With the tank drained for the precharge, the gauge must read zero.',
      'Under pressure, compare the gauge with the pressure on the well’s page. Tap it: the needle should not jump.',
    ],
    cautions: ['tank-pressure', 'well-pit'],
    source: 'Each year: common practice.',
    value: { question: 'Gauge reading with the tank drained', dimension: 'pressure' },
  },
  'relief-valve': {
    title: 'Relief valve',
    why: 'If the switch sticks, this valve keeps tank and pipes from bursting.',
    steps: [
      'Look: no drips, no rust or scale at the outlet. The outlet must be open and must point where it can hurt nobody.',
      'Only the person who services the system tests whether it still opens, as the valve’s own instructions say.',
    ],
    cautions: ['relief-valve', 'local-rules', 'well-pit'],
    source: 'The Driller, “Plumbing the Pressure Tank”: each year.',
  },
  'well-cap': {
    title: 'Well cap and casing',
    why: 'Insects, mice, rain and bacteria get in through a loose cap or a cracked casing.',
    steps: [
      'Look from outside: cap tight, no bolts missing, screen and cable entry undamaged, no crack in the casing.',
      'The ground must slope away from the casing. No puddles; no fuel, spray or manure stored nearby.',
      'Leave the cap closed. Leave any repair to a licensed well contractor.',
    ],
    cautions: ['well-cap', 'well-pit', 'contamination'],
    source: 'CDC, “Well Testing”: each spring.',
  },
  'node-calibration': {
    title: 'Sensors compared with an instrument',
    why: 'Everything here depends on the readings of clamp and transducer. Both drift.',
    steps: [
      'Pressure: compare the well’s page with a good gauge at the tank, once near cut-in and once near cut-out.',
      'Current: an electrician compares the clamp with a meter of their own. Nobody else opens a box for it.',
      'If they differ, enter both points as a calibration.',
    ],
    cautions: ['electrician', 'only-watches', 'well-pit'],
    source: 'Each year: common practice.',
  },
  freeze: {
    title: 'Ready for freezing weather',
    why: 'A frozen pipe bursts. With a frozen line to the switch, the pump may fail to stop or to start.',
    steps: [
      'Check that heater, heat tape and thermostat work, that the insulation is undamaged and dry, and that the door closes.',
      'Take hoses off and drain outside lines. Drain or lay up whatever stands empty in winter.',
      'Keep electric heaters dry and off the floor, on an outlet with ground-fault protection. An electrician installs and checks permanent heaters.',
    ],
    cautions: ['freezing', 'electrician'],
    source: 'The day is common practice; set your own.',
  },
  'stock-water': {
    title: 'Water for livestock',
    why: 'Livestock can’t wait for a repair. A second source must be there before the pump fails.',
    steps: [
      'Check that trough, float valve and overflow work. The trough must refill as fast as the herd drinks.',
      'The second source is there and full, and whoever tends the livestock knows how to use it.',
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
  'put-right': 'Found wrong, corrected',
  'not-right': 'Found wrong, not corrected yet',
  'not-done': 'Could not be done',
} as const;
