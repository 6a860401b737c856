/** Why `cycle-count` is active, in words. */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

type StartsFigures = { starts: number; normalPerDay: number };

export const cycleCountReasons = {
  'starts-over-normal': (figures: StartsFigures, format) =>
    `The pump started ${format.count(figures.starts, 'time', 'times')} in the day, ${timesNormal(figures, format)}.`,
  'starts-over-normal-shorter-runs': (figures: StartsFigures, format) =>
    `The pump started ${format.count(figures.starts, 'time', 'times')} in the day, ${timesNormal(figures, format)}. Its runs are shorter than normal.`,
  /** `starts` is the median of these days. */
  'starts-over-normal-for-weeks': (figures: StartsFigures & { days: number }, format) =>
    `The pump started about ${format.number(figures.starts)} times a day for ${format.count(figures.days, 'day', 'days')}, ${timesNormal(figures, format)}. Its runs are as long as before: more water is used.`,
} satisfies ReasonTexts;

function timesNormal({ starts, normalPerDay }: StartsFigures, { number }: ReasonFormat): string {
  const ratio = starts / normalPerDay;
  return `${number(ratio, ratio < 10 ? 1 : 0)} times its normal count of ${number(normalPerDay)}`;
}
