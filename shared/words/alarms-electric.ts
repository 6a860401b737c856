/** Words for the alarms about power, current and voltage. */
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './words.ts';

export const ELECTRIC_ALARMS = {
  'power-lost': {
    title: 'No power at the pump',
    means:
      'The supply of the pump, or of the box that watches it, is gone. No pump, no water after the tank is empty.',
    firstStep:
      'See whether other lights are out too. If so, call the power company. If only the pump is out, look at its breaker, and reset it once if it has tripped.',
    canBeWrong: 'If the box has its own supply, that alone may be out, and the pump may be well.',
    cautions: ['breaker-once', 'electrician', 'stock-water'],
  },
  'leg-lost': {
    title: 'One of three lines is dead',
    means:
      'A three-phase motor has lost one line and runs on two, or tries to. It overheats quickly and burns out unless its protection acts.',
    firstStep:
      'Switch the pump off at its disconnect and leave it off. Call the power company or an electrician.',
    canBeWrong:
      'A clamp that fell off one line shows the same. Then the other two lines look as they always did.',
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'amps-high': {
    title: 'Motor draws more than it used to',
    means:
      'The running current has left its normal upwards. The motor works harder: sand or scale in the pump, worn bearings, failing windings, or a supply that has changed.',
    firstStep:
      'Compare with the motor’s service-factor amps. If it is over them, switch the pump off and call. Else have it measured at the next visit, and soon.',
    canBeWrong:
      'Where voltage is not measured, a change of the supply moves the amps by a few per cent. So does another load on the same wire.',
    cautions: ['electrician', 'only-watches'],
  },
  'amps-low': {
    title: 'Motor draws less than it used to',
    means:
      'The running current has left its normal downwards. The pump does less work: worn stages, a falling water level, air in the water, or a valve that is partly closed.',
    firstStep:
      'Look whether a valve was touched. Watch for air spitting from the taps, and for slower filling.',
    canBeWrong:
      'Where voltage is not measured, a change of the supply moves the amps by a few per cent. A clamp that is not quite closed reads low.',
    cautions: ['electrician', 'only-watches'],
  },
  'leg-imbalance': {
    title: 'Three lines draw unlike currents',
    means:
      'The currents of the three lines differ too much. The motor runs hotter than its plate allows for. Most often the supply voltages differ; sometimes a joint or a winding is failing.',
    firstStep: 'Have an electrician measure the three voltages at the motor’s disconnect under load.',
    canBeWrong: 'Other loads on one line, or a clamp that is not quite closed, show the same.',
    cautions: ['electrician', 'lock-out'],
  },
  'supply-voltage': {
    title: 'Supply voltage out of the motor’s range',
    means:
      'The voltage is more than a tenth off the motor’s plate. Low voltage overheats a motor as surely as high voltage.',
    firstStep:
      'Note the time of day and what else was running. Tell the power company, or have an electrician measure.',
    canBeWrong: 'A wrong voltage on the card, or a generator in use, raises it too.',
    cautions: ['electrician'],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
