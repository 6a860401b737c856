/**
 * What is said of `no-run`. Its reasons: a rest that is too long, an hour by which runs always
 * come, or a turn that was missed.
 */
import type { AlarmText } from '../text-shapes.ts';

export const noRunText = {
  title: 'The usual runs do not come',
  means:
    'This well always runs at about these times, and now it has not. Either nobody needs water, or it cannot run. There is no pressure reading to tell which.',
  firstStep:
    'Look at the trough or storage tank from the ground: if it is full, nobody drew any, and there is nothing to do. Without one, let a tap run until the pump should start. If no water comes, the tank is low, or the pump draws no current, look at {breaker} from outside. If it has tripped, read the caution about it before you touch it. If it is on, call {firm}.',
  canBeWrong:
    'An empty house, stock moved to another field, or rain on an irrigated one looks the same. So does a clamp that has come off. Enter that the well is laid up.',
  needs: 'Current, and rests learned over some weeks. It is used where no pressure tells more.',
  cautions: [
    'hot-panel',
    'closed-space',
    'breaker-once',
    'after-reset',
    'electrician',
    'well-pit',
    'stock-water',
  ],
  reasons: {
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
  },
} satisfies AlarmText;
