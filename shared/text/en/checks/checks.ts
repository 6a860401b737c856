/**
 * The checks of the first hour: what each asks, what to do if readings and card differ, and what it
 * waits for if it cannot be judged yet. Written for a person at the well with a phone; nothing here
 * asks anyone to open a box.
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
  /** What to do if readings and card differ. */
  action: string;
  /** What it waits for if it cannot be judged yet. */
  waitingFor: string;
  /** Shown together with the action. */
  cautions?: readonly Caution[];
}

export const CHECK_WORDS: Record<CheckKind, CheckWords> = {
  'current-at-rest': {
    question: 'Does the clamp read zero while the pump is off?',
    action:
      'Another load is on this conductor, or the clamp has an offset. If another load shares the wire, enter it on the card.',
    waitingFor: 'the pump to stop',
  },
  'running-amps': {
    question: 'Does the running current match the motor?',
    action:
      'Compare the card with the motor’s documents, or its nameplate if it can be read from outside (service-factor amps). If the card is right, have the position and the scale of the clamp checked.',
    waitingFor: 'five runs, and the motor’s amps or size on the card',
  },
  'clamp-place': {
    question: 'Does the clamp detect each run of the pump?',
    action:
      'Pressure rises, but the clamp shows no current. The clamp must be fully closed around a single conductor. Have an electrician place it.',
    waitingFor: 'five runs',
  },
  legs: {
    question: 'Do all three lines carry the same current?',
    action:
      'Have an electrician measure the voltage and current of all three lines, and check that each clamp is closed.',
    waitingFor: 'five runs with all three lines measured',
  },
  volts: {
    question: 'Does the supply voltage match the motor?',
    action:
      'Compare the voltage on the card with the motor’s documents or nameplate. Check in the node’s setup what it measures: one line to neutral is half of 230 V.',
    waitingFor: 'a measured voltage, and the motor’s voltage on the card',
  },
  'pressure-unit': {
    question: 'Does the transducer read in the right unit?',
    action: 'Compare with the gauge at the tank. The node must send pascals: check its setup.',
    waitingFor: 'five runs, and the switch on the card',
    cautions: ['well-pit'],
  },
  'pressure-moves': {
    question: 'Does pressure rise while the pump runs?',
    action:
      'Open a tap until the pump starts and watch the gauge at the tank. If the gauge rises and the reading here does not, the transducer or its line is at fault.',
    waitingFor: 'five runs',
    cautions: ['well-pit'],
  },
  'cut-in': {
    question: 'Does the pump start at the cut-in on the card?',
    action: 'Compare with the gauge at the tank as the pump starts, then correct the card.',
    waitingFor: 'five runs, and the cut-in on the card',
    cautions: ['well-pit'],
  },
  'cut-out': {
    question: 'Does the pump stop at the cut-out on the card?',
    action: 'Compare with the gauge at the tank as the pump stops, then correct the card.',
    waitingFor: 'five runs, and the cut-out on the card',
    cautions: ['well-pit'],
  },
  precharge: {
    question: 'Is the precharge 2 psi (14 kPa) below cut-in?',
    action:
      'With the power off and the tank drained to zero pressure, have the precharge read and set 2 psi below cut-in. Enter it on the card.',
    waitingFor: 'the precharge and the cut-in on the card',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'tank-fill': {
    question: 'Is the fill time right for this tank and pump?',
    action:
      'Compare the tank’s volume and the pump’s rated flow on the card with their nameplates. If the card is right, something is wrong with the precharge or the pump.',
    waitingFor: 'five runs, and tank, precharge and rated flow on the card',
    cautions: ['well-pit'],
  },
  'time-zone': {
    question: 'Is the time zone on the card?',
    action:
      'Enter it on the card. Until then, days begin at midnight UTC, and day and night are not distinguished.',
    waitingFor: 'the time zone on the card',
  },
  'node-supply': {
    question: 'Is the node’s power supply known?',
    action:
      'The node is on the pump’s own circuit and loses power with it. Its silence can mean that the pump lost power too. A separate circuit is better.',
    waitingFor: 'the node to report its power supply',
  },
};
