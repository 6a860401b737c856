/**
 * Why `no-run` is active, in words: a rest that is too long, an hour by which runs always come, or
 * a turn that was missed.
 */
import type { ReasonTexts } from '../reason-text.ts';

export const noRunReasons = {
  'rest-too-long': ({ restedS, longestRestS }: { restedS: number; longestRestS: number }, { duration }) =>
    `The pump has not run for ${duration(restedS)}. Its longest normal rest was ${duration(longestRestS)}.`,
  'no-run-by-this-hour': ({ restedS, days }: { restedS: number; days: number }, { duration, count }) =>
    `The pump has not run for ${duration(restedS)}. It had run by this hour on each of the last ${count(days, 'normal day', 'normal days')}.`,
  /** `areMore`: the other pump's starts are counted no further. */
  'turn-missed': (
    figures: {
      otherPump: string;
      otherStarts: number;
      areMore: boolean;
      restedS: number;
      longestRestS: number;
    },
    { duration, count },
  ) => {
    const { otherPump, otherStarts, areMore, restedS, longestRestS } = figures;
    const starts = `${areMore ? 'at least ' : ''}${count(otherStarts, 'time', 'times')}`;
    return `This pump takes turns with ${otherPump}. It has not run for ${duration(restedS)}, and ${otherPump} started ${starts}. Its longest normal rest was ${duration(longestRestS)}.`;
  },
} satisfies ReasonTexts;
