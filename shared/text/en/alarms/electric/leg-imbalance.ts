/** What is said of `leg-imbalance`. */
import type { AlarmText } from '../text-shapes.ts';

export const legImbalanceText = {
  title: 'Three lines draw unlike currents',
  means:
    'The currents of the three lines differ too much. The motor runs hotter than its plate allows for. Most often the supply voltages differ; sometimes a joint or a winding is failing.',
  firstStep:
    'If the motor hums or is hot, switch it off at {breaker}. Else have a pump contractor read the three voltages while the pump runs, and roll the leads. If the odd line stays on the same supply line, it is the power company’s. If it moves along, it is the motor or its cable.',
  canBeWrong:
    'Single-phase loads on one line, a phase converter, or a clamp that is not quite closed show the same. An even fault in all three lines does not show at all.',
  needs: 'Current of all three lines. Three voltages tell the supply from the motor.',
  cautions: ['electrician', 'lock-out'],
  forms: {
    'on-two-phases': {
      means:
        'The currents of the three lines differ so much that the motor may run on two phases. A phase that fails before a transformer leaves current in all three lines, in one of them far too much. The motor overheats quickly.',
      firstStep:
        'Switch the pump off at {breaker} or its disconnect and leave it off. Call the power company or an electrician.',
      canBeWrong:
        'A clamp that hangs open on one line shows the same. The pump is switched off first all the same.',
      cautions: ['electrician', 'lock-out', 'only-watches', 'stock-water'],
    },
  },
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
