/** What is said of `supply-voltage`. */
import type { AlarmText } from '../text-shapes.ts';

export const supplyVoltageText = {
  title: 'Supply voltage out of the motor’s range',
  means:
    'The voltage is more than a tenth off the motor’s plate. Low voltage overheats a motor as surely as high voltage.',
  firstStep:
    'Note the time of day and what else was running. Tell the power company, or have an electrician measure.',
  canBeWrong:
    'A wrong voltage on the card, a sensor on another circuit, or a generator in use raises it too. It is the mean of ten minutes. A sag within the start alone is not seen.',
  needs: 'Voltage at the pump, and the motor’s volts on the card.',
  cautions: ['electrician'],
  reasons: {
    /** `deviation` is a fraction of the motor's rated voltage, negative below it. */
    'voltage-out-of-range': (
      { supplyV, ratedV, deviation }: { supplyV: number; ratedV: number; deviation: number },
      { volts, percent },
    ) =>
      `The supply is ${volts(supplyV)}, ${percent(deviation)} ${deviation > 0 ? 'over' : 'under'} the motor's rated ${volts(ratedV)}. The motor allows 10 % either way.`,
  },
} satisfies AlarmText;
