/**
 * Why `switch-shift` is active, in words: which of the switch's points moved, and from where to
 * where.
 */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

type BothPointsFigures = {
  cutInKpa: number;
  normalCutInKpa: number;
  cutOutKpa: number;
  normalCutOutKpa: number;
};

export const switchShiftReasons = {
  'switch-point-moved': (
    { point, nowKpa, normalKpa }: { point: 'cut-in' | 'cut-out'; nowKpa: number; normalKpa: number },
    { pressure },
  ) =>
    `${point === 'cut-in' ? 'Cut-in' : 'Cut-out'} moved from ${pressure(normalKpa)} to ${pressure(nowKpa)}.`,
  'both-switch-points-moved': (figures: BothPointsFigures, format) => bothText(figures, format),
  'both-switch-points-moved-alike': (figures: BothPointsFigures, format) =>
    `${bothText(figures, format)} Both moved alike. A drifting transducer does that too; a pressure gauge shows which it is.`,
} satisfies ReasonTexts;

function bothText(figures: BothPointsFigures, { pressure }: ReasonFormat): string {
  const { cutInKpa, normalCutInKpa, cutOutKpa, normalCutOutKpa } = figures;
  return `Cut-in moved from ${pressure(normalCutInKpa)} to ${pressure(cutInKpa)}, and cut-out from ${pressure(normalCutOutKpa)} to ${pressure(cutOutKpa)}.`;
}
