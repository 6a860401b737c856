/** Words for the alarms about how the pump runs, starts and delivers. */
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './words.ts';

export const PUMP_ALARMS = {
  'long-run': {
    title: 'Pump runs on without stopping',
    means:
      'The pump has run longer than this well ever needs. Water may be running away somewhere, the pump may not reach its cut-out, or the switch may be stuck. A pump that runs for hours can overheat or empty the well.',
    firstStep:
      'Look for running water: taps, hoses, a trough, a toilet, a wet patch. If nothing runs, switch the pump off at its breaker and call your pump contractor.',
    canBeWrong:
      'A pool being filled, an irrigation set or a new garden looks the same. If the use is meant, enter it as expected.',
    cautions: ['only-watches', 'lock-out'],
  },
  'dry-run': {
    title: 'Pump runs but lifts no water',
    means:
      'The motor turns and draws far less than it should, and no water comes. The water it moves cools and lubricates a pump; without it a pump can be ruined in minutes.',
    firstStep:
      'Switch the pump off at its breaker. Then look whether a valve between well and tank is closed. Leave the pump off until somebody has found out why it is dry.',
    canBeWrong:
      'A closed valve looks the same in the amps. Without pressure or flow, only low amps speak for it, and the alarm says so.',
    cautions: ['only-watches', 'lock-out', 'stock-water'],
  },
  'failed-start': {
    title: 'Motor tries to start and does not run',
    means:
      'There was the current of a start, and then no run. The motor is held, or its starting parts have failed, and the overload cuts it off. Each try heats the windings.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Call a pump contractor or an electrician.',
    canBeWrong:
      'A short dip of the supply in the first second of a run can look like it. Then the next start is good.',
    cautions: ['electrician', 'lock-out', 'stock-water'],
  },
  'no-start': {
    title: 'Pump should run and does not',
    means:
      'The pressure is under cut-in, or the float calls for water, and the pump draws no current. Water will run out.',
    firstStep:
      'Look at the breaker and the disconnect from outside. If the breaker has tripped, reset it once. If there is a low-pressure cut-off with a lever, read its instructions before using it. Else call.',
    canBeWrong:
      'A clamp that has come off, or a wrong cut-in on the card, looks the same. If water comes as ever, check those first.',
    cautions: ['breaker-once', 'electrician', 'lock-out', 'stock-water'],
  },
  'no-run': {
    title: 'The usual runs do not come',
    means:
      'This well always runs at about these times, and now it has not. Either nobody needs water, or it cannot run. There is no pressure reading to tell which.',
    firstStep:
      'Open a tap, or look at the trough or tank. If the water is low and the pump silent, look at the breaker.',
    canBeWrong:
      'Empty houses, moved stock and rain on an irrigated field look the same. Enter that the well is laid up.',
    cautions: ['breaker-once', 'stock-water'],
  },
  'short-cycling': {
    title: 'Pump starts too often',
    means:
      'Starts come too close together, or runs are too short. Every start strains the motor, the switch and the check valve. Most often the tank has lost its air.',
    firstStep:
      'Use as little water as you can. Tap the tank from top to bottom: if it sounds full all the way up, it has lost its air. Have the tank and its precharge checked.',
    canBeWrong: 'A tap left running slowly, or a small tank with a big use, gives the same pattern.',
    cautions: ['precharge', 'tank-pressure', 'lock-out'],
  },
  'starts-over-limit': {
    title: 'More starts in a day than the motor allows',
    means: 'Motors of this size are made for fewer starts in a day. It does not fail today; it ages fast.',
    firstStep:
      'Find out why: a leak, a tank without air, or simply a tank too small for the use. Have the tank checked.',
    canBeWrong: 'Without the motor’s size on the card, the limit is that of the smallest motors.',
    cautions: ['precharge', 'local-rules'],
  },
  'cut-out-not-reached': {
    title: 'Pressure levels off under cut-out',
    means:
      'The pump runs and the pressure stops rising before the switch opens. The pump is weak, water runs away, or the switch is set higher than this pump can push.',
    firstStep:
      'Close all taps and see whether the pressure then rises. If it does not, switch the pump off and call.',
    canBeWrong:
      'A large use during the run holds the pressure down. A switch that was just set higher does the same.',
    cautions: ['electrician', 'lock-out'],
  },
  'slow-fill': {
    title: 'Pump delivers less than it used to',
    means:
      'At the same pressure less water comes than when this well was learnt. Pump, pipe, filter or well gives less.',
    firstStep:
      'If a filter or screen stands before the tank, have it looked at first. Keep an eye on the amps and the well’s level.',
    canBeWrong: 'Water drawn in every run makes the fill look slow. Low voltage slows the pump too.',
    cautions: ['contamination', 'local-rules'],
  },
  'cycle-count': {
    title: 'More or fewer runs a day than usual',
    means:
      'The number of runs a day has left what is normal here. The use has changed, or the tank or the pipes have.',
    firstStep: 'Ask whether the use has changed: guests, a garden, more stock. If not, look for a leak.',
    canBeWrong:
      'Weather and seasons change the use several-fold. Enter what you expect, and it is explained.',
    cautions: [],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
