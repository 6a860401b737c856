/** Why `leg-lost` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const legLostReasons = {
  'line-without-current': (
    { line, lineA, otherLinesA }: { line: number; lineA: number; otherLinesA: number[] },
    { amps, list },
  ) =>
    `Line ${line} carries ${amps(lineA)}; the other lines carry ${list(otherLinesA.map(amps))}. The motor is running on two of three phases.`,
} satisfies ReasonTexts;
