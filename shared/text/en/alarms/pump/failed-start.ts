/**
 * What is said of `failed-start`. Its reasons: several tries within the hour, or one while water
 * is still called for.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

/** What the starts looked like, if a fast record of them was seen. */
export type StartShapeFigures = {
  /** Peak of the failed starts as a fraction of the good ones' peak, and what that shows. */
  peakRatio?: number;
  peakShows?: 'locked-rotor' | 'one-winding';
  /** Length of the last good starts and of the first ones, if they have become longer. */
  startS?: number;
  normalStartS?: number;
};

type FailedStartFigures = StartShapeFigures & {
  /** How long current flowed in the last try. */
  ranS: number;
  peakA?: number;
  /** The current of a running motor. */
  normalA?: number;
};

export const failedStartText = {
  title: 'Motor tries to start and does not run',
  means:
    'There was the current of a start, and then no run. The motor is held, or its starting parts have failed, and the overload cuts it off. Each try heats the windings.',
  firstStep: 'Switch the pump off at {breaker} and leave it off. Call {firm}, or an electrician.',
  canBeWrong:
    'Sampled once in five seconds or slower, a short healthy run can look like a try, and a try can be missed. A dip of the supply in the first second looks the same. Then the next start is good.',
  needs: 'Current, a reading a second or faster. A start recorded at high rate helps.',
  cautions: ['hot-panel', 'switching-off', 'stored-charge', 'electrician', 'lock-out', 'stock-water'],
  reasons: {
    'starts-failed': (figures: FailedStartFigures & { tries: number; everyS?: number }, format) => {
      const { tries, everyS } = figures;
      const even =
        everyS === undefined
          ? ''
          : ` It tries about every ${format.duration(everyS)}, like an overload that resets.`;
      return `The motor tried to start ${format.count(tries, 'time', 'times')} and did not run.${even}${currentText(figures, format)}${shapeText(figures, format)}`;
    },
    'start-failed-water-called-for': (figures: FailedStartFigures, format) =>
      `The motor tried to start and did not run, and water is still called for.${currentText(figures, format)}${shapeText(figures, format)}`,
  },
} satisfies AlarmText;

function currentText({ peakA, ranS, normalA }: FailedStartFigures, format: ReasonFormat): string {
  if (peakA === undefined) return '';
  const running = normalA === undefined ? '' : `; a running motor draws ${format.amps(normalA)}`;
  return ` It drew up to ${format.amps(peakA)} for ${format.duration(ranS)}${running}.`;
}

function shapeText(
  { peakRatio, peakShows, startS, normalStartS }: StartShapeFigures,
  format: ReasonFormat,
): string {
  const peak =
    peakRatio === undefined
      ? ''
      : peakShows === 'locked-rotor'
        ? ' That is the full starting current of a locked rotor.'
        : ` That is ${format.percent(peakRatio)} of the peak of its good starts, typical of a motor on one winding.`;
  const longer =
    startS === undefined || normalStartS === undefined
      ? ''
      : ` Its good starts now take ${format.duration(startS)}; ${format.duration(normalStartS)} was normal.`;
  return peak + longer;
}
