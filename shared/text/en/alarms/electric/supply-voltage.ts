/** What is said of `supply-voltage`. */
import type { AlarmText } from '../text-shapes.ts';

export const supplyVoltageText = {
  title: 'Supply voltage out of the motor’s range',
  means:
    'While the pump runs, the voltage is more than a tenth off the motor’s nameplate. Low voltage overheats a motor as surely as high voltage.',
  firstStep:
    'Switch the pump off at {breaker}, except while you must draw water. Call the power company first: it measures at the meter without charge in most places. Tell it the volts, the time of day and what else was running. If its side is right, call an electrician: a thin wire or a bad joint does this. If lights are too bright or too dim, touch no metal trough, pipe or well casing, and call at once.',
  canBeWrong:
    'A wrong voltage on the card, a sensor on another circuit, or a generator in use raises it too.',
  needs: 'Voltage at the pump, and the motor’s volts on the card.',
  cautions: ['hot-panel', 'live-metal', 'electrician', 'generator-load', 'stock-water'],
  forms: {
    'voltage-far-off': {
      means:
        'While the pump runs, the voltage is more than a fifth off the motor’s nameplate. The motor burns out soon. Where lights elsewhere are too bright or too dim, the neutral of the service may be open, which can start a fire.',
      firstStep:
        'Switch the pump off at {breaker} now and leave it off. If lights are too bright or too dim, touch no wiring and no metal trough, pipe or well casing, and call the power company at once. For smoke or a burning smell call 911. Else call an electrician.',
      canBeWrong:
        'A wrong voltage on the card, a sensor on another circuit, or a generator in use looks the same. The pump is switched off first all the same.',
      cautions: [
        'hot-panel',
        'live-metal',
        'electrician',
        'lock-out',
        'generator',
        'generator-load',
        'only-watches',
        'stock-water',
      ],
    },
  },
  reasons: {
    /**
     * `deviation` is a fraction of the motor's rated voltage, negative below it; `sag` one of the
     * voltage at rest.
     */
    'voltage-out-of-range': (
      {
        supplyV,
        ratedV,
        deviation,
        sag,
      }: { supplyV: number; ratedV: number; deviation: number; sag?: number },
      { volts, percent },
    ) => {
      const sags =
        sag === undefined
          ? ''
          : ` It sags by ${percent(sag)} as the pump runs: a wire, a joint or the transformer is too weak.`;
      return `The supply is ${volts(supplyV)}, ${percent(deviation)} ${deviation > 0 ? 'over' : 'under'} the motor's rated ${volts(ratedV)}. The motor allows 10 % either way.${sags}`;
    },
    'voltage-dips': (
      { dips, lowestV, ratedV }: { dips: number; lowestV: number; ratedV: number },
      { volts, count },
    ) =>
      `The supply dipped in ${count(dips, 'minute', 'minutes')} of this day, down to ${volts(lowestV)}; the motor is rated ${volts(ratedV)}. Between the dips it is right: a loose joint, wires that touch in the wind, or a large load nearby does this.`,
  },
} satisfies AlarmText;
