/** Why `leg-imbalance` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const legImbalanceReasons = {
  /** Unbalance is a fraction: the largest deviation from the mean current, over the mean. */
  'lines-unbalanced': (
    { linesA, unbalance, normalUnbalance }: { linesA: number[]; unbalance: number; normalUnbalance?: number },
    { amps, percent, list },
  ) =>
    `The three lines carry ${list(linesA.map(amps))}. Current unbalance is ${percent(unbalance)}${normalUnbalance === undefined ? '' : `; ${percent(normalUnbalance)} is normal for this pump`}.`,
} satisfies ReasonTexts;
