/** Why `level-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const levelLowReasons = {
  'level-near-intake': ({ levelM }: { levelM: number }, { length }) =>
    `The water level in the well is only ${length(levelM)} above the pump's intake.`,
} satisfies ReasonTexts;
