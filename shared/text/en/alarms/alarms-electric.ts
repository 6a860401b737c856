/** Words for the alarms about power, current and voltage. */
import { IF_IT_TRIPPED } from '../cautions.ts';
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './text-shapes.ts';

export const ELECTRIC_ALARMS = {
  'power-lost': {
    title: 'No power at the pump',
    means:
      'The supply of the pump, or of the box that watches it, is gone. No pump, no water after the tank is empty.',
    firstStep: `If lights are out too, call the power company. If only the pump is out, look at its breaker. ${IF_IT_TRIPPED} Use a generator only through a transfer switch and outdoors. Save water.`,
    canBeWrong:
      'If the box has its own supply, that alone may be out, and the pump may be well. A voltage lead that came loose reads as no voltage: then the pump still runs at its next start.',
    needs: 'Voltage at the pump, or a node that reports it just before it lost power.',
    cautions: ['breaker-once', 'electrician', 'generator', 'flood', 'stock-water'],
  },
  'leg-lost': {
    title: 'One of three lines is dead',
    means:
      'A three-phase motor has lost one line and runs on two, or tries to. It overheats quickly and burns out unless its protection acts.',
    firstStep:
      'Switch the pump off at its breaker or disconnect and leave it off. Call the power company or an electrician.',
    canBeWrong:
      'A clamp that fell off or hangs open on one line shows the same. Then the other two lines draw what they always drew; with a line truly lost they draw much more.',
    needs: 'Current of all three lines, each with its own clamp.',
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'amps-high': {
    title: 'Motor draws more than it used to',
    means:
      'The running current has left its normal upwards. The motor works harder: sand or scale in the pump, worn bearings, failing windings, or a supply that has changed.',
    firstStep:
      'Compare with the motor’s service-factor amps. If it is over them, switch the pump off and call. Else have it measured at the next visit, and soon.',
    canBeWrong:
      'Where voltage is not measured, the supply alone moves the amps by some per cent, from season to season too. Another load on the same wire does it, and so does a run at a lower pressure than usual.',
    needs:
      'Current, and a baseline of it. Voltage tells a changed supply from a changed motor; pressure makes runs comparable.',
    cautions: ['electrician', 'only-watches'],
  },
  'amps-low': {
    title: 'Motor draws less than it used to',
    means:
      'The running current has left its normal downwards. The pump does less work: worn stages, a falling water level, air in the water, or a valve that is partly closed.',
    firstStep:
      'Look whether a valve was touched. Watch for air spitting from the taps, and for slower filling.',
    canBeWrong:
      'Where voltage is not measured, the supply alone moves the amps by some per cent; a generator of some days does more, and is waited for. A clamp that is not quite closed reads low while the pump is as good as ever. A valve that somebody throttled on purpose does it too.',
    needs:
      'Current, and a baseline of it. Voltage tells a changed supply from a changed pump; pressure makes runs comparable.',
    cautions: ['electrician', 'well-pit', 'only-watches'],
  },
  'leg-imbalance': {
    title: 'Three lines draw unlike currents',
    means:
      'The currents of the three lines differ too much. The motor runs hotter than its plate allows for. Most often the supply voltages differ; sometimes a joint or a winding is failing.',
    firstStep: 'Have an electrician measure the three voltages at the motor’s disconnect under load.',
    canBeWrong:
      'Single-phase loads on one line, a phase converter, or a clamp that is not quite closed show the same. An even fault in all three lines does not show at all.',
    needs: 'Current of all three lines. Three voltages tell the supply from the motor.',
    cautions: ['electrician', 'lock-out'],
  },
  'supply-voltage': {
    title: 'Supply voltage out of the motor’s range',
    means:
      'The voltage is more than a tenth off the motor’s plate. Low voltage overheats a motor as surely as high voltage.',
    firstStep:
      'Note the time of day and what else was running. Tell the power company, or have an electrician measure.',
    canBeWrong:
      'A wrong voltage on the card, a sensor on another circuit, or a generator in use raises it too. It is the mean of ten minutes. A sag within the start alone is not seen.',
    needs: 'Voltage at the pump, and the motor’s volts on the card.',
    cautions: ['electrician'],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
