/**
 * What is said of `cut-out-not-reached`. Its reasons: runs that end too low, or one that holds a
 * level.
 */
import type { AlarmText } from '../text-shapes.ts';

export const cutOutNotReachedText = {
  title: 'Pressure levels off under cut-out',
  means:
    'The pump runs and the pressure stops rising before the switch opens. The pump is weak, water runs away, or the switch is set higher than this pump can push.',
  firstStep:
    'Close all taps. If the pressure then rises to cut-out, it was a use, and there is nothing to do. If it has not begun to rise within two minutes, stops rising under cut-out, or a tap spits air, switch the pump off at {breaker}. Leave it off and call {firm}: a worn pump, a low well, a burst line or a switch set too high does this.',
  canBeWrong:
    'A large use that goes on for hours holds the pressure down in a healthy way. A switch that was just set lower ends its runs early. A gauge that has begun to read low does the same.',
  needs: 'Current and pressure, and a cut-out that was learned or is on the card.',
  cautions: ['hot-panel', 'electrician', 'lock-out', 'scalding', 'stock-water'],
  reasons: {
    'runs-end-under-cut-out': (
      figures: { runs: number; ofRuns: number; endedKpa: number; cutOutKpa: number },
      { pressure, number },
    ) =>
      `${number(figures.runs)} of the last ${number(figures.ofRuns)} runs ended under cut-out, the last at ${pressure(figures.endedKpa)}. The switch normally opens at ${pressure(figures.cutOutKpa)}.`,
    'pressure-levels-off': (
      { ranS, kpa, cutOutKpa }: { ranS: number; kpa: number; cutOutKpa: number },
      { pressure, duration },
    ) =>
      `The pump has run for ${duration(ranS)}. Pressure has leveled off at ${pressure(kpa)}, under the cut-out of ${pressure(cutOutKpa)}.`,
  },
} satisfies AlarmText;
