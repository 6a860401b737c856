/** What is said of `leg-lost`. */
import type { AlarmText } from '../text-shapes.ts';

export const legLostText = {
  title: 'Motor has lost a phase (single-phasing)',
  means:
    'A three-phase motor has lost one line and runs on two, or tries to. It overheats quickly and burns out unless its protection acts. The lost line can still be live.',
  firstStep:
    'Turn the pump’s selector or starter to OFF, then switch the pump off at {breaker} or its disconnect, and leave it off. Call an electrician or the power company.',
  canBeWrong:
    'A clamp that fell off or hangs open on one line shows the same. Then the other two lines draw what they always drew; with a line truly lost they draw much more.',
  needs: 'Current of all three lines, each with its own clamp.',
  cautions: ['hot-panel', 'switching-off', 'electrician', 'lock-out', 'only-watches', 'stock-water'],
  reasons: {
    'line-without-current': (
      { line, lineA, otherLinesA }: { line: number; lineA: number; otherLinesA: number[] },
      { amps, list },
    ) =>
      `Line ${line} carries ${amps(lineA)}; the other lines carry ${list(otherLinesA.map(amps))}. The motor is running on two of three phases.`,
  },
} satisfies AlarmText;
