/** Why `amps-high` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';

export const ampsHighReasons = {
  'current-over-motor-maximum': (
    { nowA, maxA, learnedA }: { nowA: number; maxA: number; learnedA: number },
    { amps },
  ) =>
    `The pump draws ${amps(nowA)}. The motor's maximum is ${amps(maxA)}; the normal current was ${amps(learnedA)}.`,
  'current-above-normal': (figures: AmpsShiftFigures, format) =>
    `${shiftText(figures, format)}.${supplyText(figures)}`,
} satisfies ReasonTexts;
