/**
 * Why `cut-out-not-reached` is active, in words: runs that end too low, or one that holds a level.
 */
import type { ReasonTexts } from '../reason-text.ts';

export const cutOutNotReachedReasons = {
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
} satisfies ReasonTexts;
