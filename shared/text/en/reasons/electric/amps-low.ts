/** Why `amps-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';

export const ampsLowReasons = {
  /** `fillRatio` is the time of a fill over its normal, if it is longer. */
  'current-below-normal': (figures: AmpsShiftFigures & { fillRatio?: number }, format) =>
    `${shiftText(figures, format)}.${fillText(figures.fillRatio, format.percent)}${supplyText(figures)}`,
} satisfies ReasonTexts;

function fillText(fillRatio: number | undefined, percent: (fraction: number) => string): string {
  return fillRatio === undefined ? '' : ` Its fills take ${percent(fillRatio - 1)} longer.`;
}
