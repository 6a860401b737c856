/** What is said of `short-cycling`. */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

type RestFigures = { starts: number; inS: number; restS: number };

/** `startS` is how long starting current lasts in the median of these runs. */
type LongStartFigures = { runs: number; ofRuns: number; startS: number };

export const shortCyclingText = {
  title: 'Pump starts too often',
  means:
    'Starts come too close together, or runs are too short. Every start strains the motor, the switch and the check valve. Most often the tank has lost its air.',
  firstStep:
    'Use as little water as you can. If the pump starts every few seconds, switch it off at {breaker} between uses. Knock on the tank from top to bottom: if it sounds full all the way up, it has lost its air. Have {firm} check the tank and its precharge this week.',
  canBeWrong:
    'A very small tank with a use of about half the pump’s flow starts this often without a fault. A tap left running beside a tank that has only lost a little air does too. Right after work on the tank its usual fills are not known yet.',
  needs: 'Current, and how long a fill takes here. Pressure tells a tank from a switch.',
  cautions: ['hot-panel', 'precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  reasons: {
    /** `fillS` is a normal fill without any draw. */
    'starts-too-close': (
      { starts, inS, ranS, fillS }: { starts: number; inS: number; ranS: number; fillS?: number },
      { count, duration },
    ) => {
      const normal = fillS === undefined ? '' : ` A normal fill takes ${duration(fillS)}.`;
      return `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}, with runs of ${duration(ranS)}.${normal}`;
    },
    /** `minS` is what a motor of this size needs to run for after a start. */
    'runs-too-short': (
      { starts, inS, ranS, minS }: { starts: number; inS: number; ranS: number; minS: number },
      { count, duration },
    ) =>
      `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}, with runs of ${duration(ranS)}. A motor of this size should run for at least ${duration(minS)}: the tank is too small, or it has lost its air.`,
    'rests-too-short': ({ starts, inS, restS }: RestFigures, { count, duration }) =>
      `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}. Each time it started again within ${duration(restS)}.`,
    'rests-too-regular': ({ starts, inS, restS }: RestFigures, { count, duration }) =>
      `The pump started ${count(starts, 'time', 'times')} in ${duration(inS)}, and each rest lasted about ${duration(restS)}. Nobody draws water that regularly.`,
    // The motor starts several times within one run.
    'starts-bounce': (figures: LongStartFigures, format) =>
      `${longStarts(figures, format)} The motor starts several times in each run: contacts may bounce.`,
    'starts-slow': (figures: LongStartFigures, format) =>
      `${longStarts(figures, format)} The motor comes up to speed slowly.`,
  },
} satisfies AlarmText;

function longStarts({ runs, ofRuns, startS }: LongStartFigures, { number, duration }: ReasonFormat): string {
  return `Starting current lasted ${duration(startS)} in ${number(runs)} of the last ${number(ofRuns)} runs; it normally lasts under a second.`;
}
