/** Why `supply-voltage` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const supplyVoltageReasons = {
  /** `deviation` is a fraction of the motor's rated voltage, negative below it. */
  'voltage-out-of-range': (
    { supplyV, ratedV, deviation }: { supplyV: number; ratedV: number; deviation: number },
    { volts, percent },
  ) =>
    `The supply is ${volts(supplyV)}, ${percent(deviation)} ${deviation > 0 ? 'over' : 'under'} the motor's rated ${volts(ratedV)}. The motor allows 10 % either way.`,
} satisfies ReasonTexts;
