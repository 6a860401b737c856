/**
 * What is said of `switch-shift`. Its reasons: which of the switch's points moved, and from
 * where to where.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

type BothPointsFigures = {
  cutInKpa: number;
  normalCutInKpa: number;
  cutOutKpa: number;
  normalCutOutKpa: number;
};

export const switchShiftText = {
  title: 'Pressure switch points have moved',
  means:
    'Cut-in or cut-out is no longer where the card or the baseline has it. Switches drift as they age, or somebody set it.',
  firstStep:
    'Ask who set the switch. If somebody did, change the card. If nobody did, have {firm} check the switch within a month.',
  canBeWrong:
    'When both points move together, the gauge may have drifted and not the switch. Somebody may have set it on purpose. Readings more than some seconds apart blur both points by some psi.',
  needs: 'Current and pressure, and a baseline or the switch’s setting on the card.',
  cautions: ['lock-out', 'electrician', 'well-pit'],
  reasons: {
    'switch-point-moved': (
      { point, nowKpa, normalKpa }: { point: 'cut-in' | 'cut-out'; nowKpa: number; normalKpa: number },
      { pressure },
    ) =>
      `${point === 'cut-in' ? 'Cut-in' : 'Cut-out'} moved from ${pressure(normalKpa)} to ${pressure(nowKpa)}.`,
    'both-switch-points-moved': (figures: BothPointsFigures, format) => bothText(figures, format),
    'both-switch-points-moved-alike': (figures: BothPointsFigures, format) =>
      `${bothText(figures, format)} Both moved alike. A drifting transducer does that too; a pressure gauge shows which it is.`,
  },
} satisfies AlarmText;

function bothText(figures: BothPointsFigures, { pressure }: ReasonFormat): string {
  const { cutInKpa, normalCutInKpa, cutOutKpa, normalCutOutKpa } = figures;
  return `Cut-in moved from ${pressure(normalCutInKpa)} to ${pressure(cutInKpa)}, and cut-out from ${pressure(normalCutOutKpa)} to ${pressure(cutOutKpa)}.`;
}
