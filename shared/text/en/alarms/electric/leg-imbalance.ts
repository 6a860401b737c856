/** What is said of `leg-imbalance`. */
import type { AlarmText } from '../text-shapes.ts';

export const legImbalanceText = {
  title: 'Three lines draw unlike currents',
  means:
    'The currents of the three lines differ too much. The motor runs hotter than its plate allows for. Most often the supply voltages differ; sometimes a joint or a winding is failing.',
  firstStep: 'Have an electrician measure the three voltages at the motor’s disconnect under load.',
  canBeWrong:
    'Single-phase loads on one line, a phase converter, or a clamp that is not quite closed show the same. An even fault in all three lines does not show at all.',
  needs: 'Current of all three lines. Three voltages tell the supply from the motor.',
  cautions: ['electrician', 'lock-out'],
  reasons: {
    /** Unbalance is a fraction: the largest deviation from the mean current, over the mean. */
    'lines-unbalanced': (
      {
        linesA,
        unbalance,
        normalUnbalance,
      }: { linesA: number[]; unbalance: number; normalUnbalance?: number },
      { amps, percent, list },
    ) =>
      `The three lines carry ${list(linesA.map(amps))}. Current unbalance is ${percent(unbalance)}${normalUnbalance === undefined ? '' : `; ${percent(normalUnbalance)} is normal for this pump`}.`,
  },
} satisfies AlarmText;
