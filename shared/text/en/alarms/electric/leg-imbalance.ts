/** What is said of `leg-imbalance`. */
import type { AlarmText } from '../text-shapes.ts';

export const legImbalanceText = {
  title: 'Current unbalance between the three lines',
  means:
    'The currents of the three lines differ too much: current unbalance. The motor runs hotter than its nameplate allows for. Most often the supply voltages differ; sometimes a joint or a winding is failing.',
  firstStep:
    'If the unbalance is over 10 %, or one line draws more than the service-factor amps, do not wait: switch the pump off at {breaker}, leave it off and call {firm}. Else use little water. Have {firm} roll the leads this week: an odd current that stays with its supply line is the supply’s, yours or the power company’s. One that moves along is the motor’s or its cable’s.',
  canBeWrong:
    'Single-phase loads on one line, a phase converter, or a clamp that is not quite closed show the same. An even fault in all three lines does not show at all.',
  needs: 'Current of all three lines. Three voltages tell the supply from the motor.',
  cautions: ['hot-panel', 'switching-off', 'electrician', 'lock-out', 'stock-water'],
  forms: {
    'on-two-phases': {
      means:
        'The currents of the three lines differ so much that the motor may run on two phases: single-phasing. A phase that fails before a transformer leaves current in all three lines, in one of them far too much. The motor overheats quickly.',
      firstStep:
        'Turn the pump’s selector or starter to OFF, then switch the pump off at {breaker} or its disconnect, and leave it off. Call an electrician or the power company.',
      canBeWrong:
        'A clamp that hangs open on one line shows the same. The pump is switched off first all the same.',
      cautions: ['hot-panel', 'switching-off', 'electrician', 'lock-out', 'only-watches', 'stock-water'],
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
