/**
 * The checks of the first hour: what each asks, and what to do where readings and card differ or
 * cannot be told yet. Worded for whoever stands beside the well with a telephone in the hand;
 * nothing here asks anyone to open a box.
 */
import type { Caution } from '../cautions.ts';

export const CHECK_KINDS = [
  'current-at-rest',
  'running-amps',
  'clamp-place',
  'legs',
  'volts',
  'pressure-unit',
  'pressure-moves',
  'cut-in',
  'cut-out',
  'precharge',
  'tank-fill',
  'time-zone',
  'node-supply',
] as const;
export type CheckKind = (typeof CHECK_KINDS)[number];

export interface CheckWords {
  question: string;
  /** Where it differs. */
  action: string;
  /** Where it cannot be told yet: what it waits for. */
  waitingFor: string;
  /** What must be said along with what to do. */
  cautions?: readonly Caution[];
}

export const CHECK_WORDS: Record<CheckKind, CheckWords> = {
  'current-at-rest': {
    question: 'Is there no current while the pump rests?',
    action:
      'Something else draws through this conductor, or the clamp shows an offset. If something else shares the wire, write it on the card.',
    waitingFor: 'a rest of the pump',
  },
  'running-amps': {
    question: 'Does the running current fit the motor?',
    action:
      'Compare the card with the motor’s papers, or its plate where it can be read from outside (service-factor amps). If the card is right, have the place and the scale of the clamp checked.',
    waitingFor: 'five runs, and the motor’s amps or size on the card',
  },
  'clamp-place': {
    question: 'Does the clamp show each run of the pump?',
    action:
      'Pressure rises without current. The clamp must sit round one conductor alone, closed. Have an electrician put it there.',
    waitingFor: 'five runs',
  },
  legs: {
    question: 'Do the three lines carry alike?',
    action:
      'Have an electrician measure voltages and currents of all three lines, and see that each clamp is closed.',
    waitingFor: 'five runs with all three lines measured',
  },
  volts: {
    question: 'Does the supply fit the motor?',
    action:
      'Compare the voltage on the card with the motor’s papers or plate, and what the node measures with its set-up: one line to neutral is half of 230 V.',
    waitingFor: 'a measured voltage, and the motor’s on the card',
  },
  'pressure-unit': {
    question: 'Does the transducer read in the right unit?',
    action: 'Compare with the dial at the tank. The node must send pascals: look at its set-up.',
    waitingFor: 'five runs, and the switch on the card',
    cautions: ['well-pit'],
  },
  'pressure-moves': {
    question: 'Does pressure rise while the pump runs?',
    action:
      'Open a tap till the pump starts and watch the dial at the tank. If the dial rises and this does not, the transducer or its line is at fault.',
    waitingFor: 'five runs',
    cautions: ['well-pit'],
  },
  'cut-in': {
    question: 'Does the pump start where the card says?',
    action: 'Compare with the dial at the tank as the pump starts, then correct the card.',
    waitingFor: 'five runs, and the cut-in on the card',
    cautions: ['well-pit'],
  },
  'cut-out': {
    question: 'Does the pump stop where the card says?',
    action: 'Compare with the dial at the tank as the pump stops, then correct the card.',
    waitingFor: 'five runs, and the cut-out on the card',
    cautions: ['well-pit'],
  },
  precharge: {
    question: 'Is the tank’s air 2 psi (14 kPa) under cut-in?',
    action:
      'Have it read with the power off and the water drained to zero, set 2 psi under cut-in, and written on the card.',
    waitingFor: 'the precharge and the cut-in on the card',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'tank-fill': {
    question: 'Do fills take as long as this tank and pump need?',
    action:
      'Compare the tank’s volume and the pump’s rated flow on the card with their plates. If they are right, the tank’s air or the pump is not.',
    waitingFor: 'five runs, and tank, precharge and rated flow on the card',
    cautions: ['well-pit'],
  },
  'time-zone': {
    question: 'Is the time zone on the card?',
    action:
      'Write it on the card. Until then days begin at midnight UTC, and day and night are not told apart.',
    waitingFor: 'the time zone on the card',
  },
  'node-supply': {
    question: 'Is it known how the node is fed?',
    action:
      'The node hangs on the pump’s own circuit and dies with it: its silence is taken for news about the pump. A supply of its own is better.',
    waitingFor: 'the node to say so in its hello',
  },
};
