/** Words for the alarms about how the pump runs, starts and delivers. */
import { IF_IT_TRIPPED } from '../cautions.ts';
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './text-shapes.ts';

export const PUMP_ALARMS = {
  'long-run': {
    title: 'Pump runs on without stopping',
    means:
      'The pump has run longer than this well ever needs. Water may be running away somewhere, the pump may not reach its cut-out, or the switch may be stuck. A pump that runs for hours can overheat or empty the well.',
    firstStep:
      'Look for running water: taps, hoses, hydrants, a trough, a toilet, a wet patch. If you find none within ten minutes, switch the pump off at its breaker and call your pump contractor. If you are filling a pool, enter it as expected.',
    canBeWrong:
      'A pool being filled, an irrigation set that runs all day, or a new garden looks the same. Under cut-in it can be a use that is simply too large for the pump. If the use is meant, enter it as expected.',
    needs: 'Current. With pressure it is told sooner; with the usual length of a run learnt, more surely.',
    cautions: ['only-watches', 'lock-out'],
    forms: {
      'past-cut-out': {
        means:
          'The pump runs on past the point at which its pressure switch should have stopped it. Most often the contacts of the switch are stuck closed. The pressure can rise to that of the relief valve, and a pump that moves no water heats what stands in it.',
        firstStep:
          'Switch the pump off at its breaker now and leave it off. Stand clear of the tank. Then open a cold tap in the house or yard to let pressure off. Call your pump contractor.',
        canBeWrong:
          'A gauge that has begun to read high, or a switch that was just set higher, looks the same. Where pressure is not measured, a closed valve or a low well does too. The pump is switched off first all the same.',
        cautions: ['lock-out', 'tank-pressure', 'relief-valve', 'scalding', 'only-watches', 'stock-water'],
      },
    },
  },
  'dry-run': {
    title: 'Pump runs but lifts no water',
    means:
      'The motor turns and draws far less than it should, and no water comes. The water it moves cools and lubricates a pump; without it a pump can be ruined in minutes.',
    firstStep:
      'Switch the pump off at its breaker. Then look whether a valve between well and tank is closed. Leave the pump off until somebody has found out why it is dry.',
    canBeWrong:
      'A valve closed between the pump and the gauge looks the same in amps and pressure. Without pressure or flow, low amps alone speak for it, and the alarm says so. A clamp that has slipped half open reads low too. Then water still comes.',
    needs:
      'Current, and what it usually is: learnt, or the motor’s service-factor amps on the card. Pressure confirms it; a water level says why.',
    cautions: ['only-watches', 'lock-out', 'scalding', 'well-pit', 'stock-water'],
  },
  'failed-start': {
    title: 'Motor tries to start and does not run',
    means:
      'There was the current of a start, and then no run. The motor is held, or its starting parts have failed, and the overload cuts it off. Each try heats the windings.',
    firstStep:
      'Switch the pump off at its breaker and leave it off. Call a pump contractor or an electrician.',
    canBeWrong:
      'Sampled once in five seconds or slower, a short healthy run can look like a try, and a try can be missed. A dip of the supply in the first second looks the same. Then the next start is good.',
    needs: 'Current, a reading a second or faster. A start recorded at high rate helps.',
    cautions: ['electrician', 'lock-out', 'stock-water'],
  },
  'no-start': {
    title: 'Pump should run and does not',
    means:
      'The pressure is under cut-in, or the float calls for water, and the pump draws no current. Water will run out.',
    firstStep: `Look at the disconnect and the breaker from outside. ${IF_IT_TRIPPED} If there is a low-pressure cut-off with a lever, read its instructions before using it. Else call.`,
    canBeWrong:
      'A clamp that has come off looks the same: then water comes as ever. So does a cut-in on the card that is higher than the switch’s, or a gauge that reads low. A second pump without a clamp may be doing the work.',
    needs:
      'Current and pressure, or current and the switch’s or float’s contact. Voltage tells a dead supply from a dead motor.',
    cautions: ['breaker-once', 'electrician', 'lock-out', 'well-pit', 'flood', 'stock-water'],
  },
  'no-run': {
    title: 'The usual runs do not come',
    means:
      'This well always runs at about these times, and now it has not. Either nobody needs water, or it cannot run. There is no pressure reading to tell which.',
    firstStep:
      'Open a tap, or look at the trough or storage tank from outside. If the water is low and the pump silent, look at the breaker.',
    canBeWrong:
      'An empty house, stock moved to another field, or rain on an irrigated one looks the same. So does a clamp that has come off. Enter that the well is laid up.',
    needs: 'Current, and rests learnt over some weeks. It is used where no pressure tells more.',
    cautions: ['closed-space', 'breaker-once', 'stock-water'],
  },
  'short-cycling': {
    title: 'Pump starts too often',
    means:
      'Starts come too close together, or runs are too short. Every start strains the motor, the switch and the check valve. Most often the tank has lost its air.',
    firstStep:
      'Use as little water as you can. Tap the tank from top to bottom: if it sounds full all the way up, it has lost its air. Have the tank and its precharge checked.',
    canBeWrong:
      'A very small tank with a use of about half the pump’s flow starts this often without a fault. A tap left running beside a tank that has only lost a little air does too. Right after work on the tank its usual fills are not known yet.',
    needs: 'Current, and how long a fill takes here. Pressure tells a tank from a switch.',
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'starts-over-limit': {
    title: 'More starts in a day than the motor allows',
    means: 'Motors of this size are made for fewer starts in a day. It does not fail today; it ages fast.',
    firstStep:
      'Find out why: a leak, a tank without air, or simply a tank too small for the use. Have the tank checked.',
    canBeWrong:
      'Without the motor’s size on the card, the limit is that of the smallest motors, and a larger one may stand fewer. One day of guests, a garden or a pool passes. Limits differ between makers: the plate or the manual rules.',
    needs: 'Current, for a whole day. The motor’s size on the card says how many starts are allowed.',
    cautions: ['precharge', 'well-pit', 'local-rules'],
  },
  'cut-out-not-reached': {
    title: 'Pressure levels off under cut-out',
    means:
      'The pump runs and the pressure stops rising before the switch opens. The pump is weak, water runs away, or the switch is set higher than this pump can push.',
    firstStep:
      'Close all taps and see whether the pressure then rises. If it does not, switch the pump off and call.',
    canBeWrong:
      'A large use that goes on for hours holds the pressure down in a healthy way. A switch that was just set lower ends its runs early. A gauge that has begun to read low does the same.',
    needs: 'Current and pressure, and a cut-out that was learnt or is on the card.',
    cautions: ['electrician', 'lock-out'],
  },
  'slow-fill': {
    title: 'Pump delivers less than it used to',
    means:
      'At the same pressure less water comes than when this well was learnt. Pump, pipe, filter or well gives less.',
    firstStep:
      'If a filter or screen stands before the tank, have it looked at first. Keep an eye on the amps and the well’s level.',
    canBeWrong:
      'A use in nearly every run makes even the quickest fill look slow; at the usual amps, with nothing falling back at rest, only a large loss is told. So does a tank that was given a different air charge, or a low supply voltage. A filter before the tank that is due does it harmlessly.',
    needs:
      'Current and pressure, and a baseline. A tank on the card makes it litres; else it is judged by the time that the quickest fills take.',
    cautions: ['well-pit', 'contamination', 'local-rules'],
  },
  'cycle-count': {
    title: 'More or fewer runs a day than usual',
    means:
      'The number of runs a day has left what is normal here. The use has changed, or the tank or the pipes have.',
    firstStep: 'Ask whether the use has changed: guests, a garden, more stock. If not, look for a leak.',
    canBeWrong:
      'Weather, seasons, guests and stock change the use several-fold in a healthy way. Enter what you expect, and it is explained. Guests who stay for a fortnight are told as a changed use. A week is not much to know a household by.',
    needs: 'Current for whole days, and two weeks of habit.',
    cautions: [],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
