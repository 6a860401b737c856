/** What is said of `cycle-count`. */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

type StartsFigures = { starts: number; normalPerDay: number };

export const cycleCountText = {
  title: 'More or fewer runs a day than usual',
  means:
    'The number of runs a day has left what is normal here. The use has changed, or the tank or the pipes have.',
  firstStep:
    'Ask whether the use has changed: guests, a garden, more stock. If so, enter it as expected. If not, look for a leak: listen at toilets, and push yard hydrants fully down. If you find none, call {firm} this week.',
  canBeWrong:
    'Weather, seasons, guests and stock change the use several-fold in a healthy way. Enter what you expect, and it is explained. Guests who stay for a week are told as a changed use.',
  needs: 'Current for whole days, and two weeks of habit.',
  cautions: [],
  reasons: {
    'starts-over-normal': (figures: StartsFigures, format) =>
      `The pump started ${format.count(figures.starts, 'time', 'times')} in the day, ${timesNormal(figures, format)}.`,
    'starts-under-normal': ({ starts, normalPerDay }: StartsFigures, { count, number }) =>
      `The pump started ${count(starts, 'time', 'times')} in the day; ${number(normalPerDay)} is normal. It has been so for days.`,
    'starts-over-normal-shorter-runs': (figures: StartsFigures, format) =>
      `The pump started ${format.count(figures.starts, 'time', 'times')} in the day, ${timesNormal(figures, format)}. Its runs are shorter than normal.`,
    /** `starts` is the median of these days. */
    'starts-over-normal-for-weeks': (figures: StartsFigures & { days: number }, format) =>
      `The pump started about ${format.number(figures.starts)} times a day for ${format.count(figures.days, 'day', 'days')}, ${timesNormal(figures, format)}. Its runs are as long as before: more water is used.`,
  },
} satisfies AlarmText;

function timesNormal({ starts, normalPerDay }: StartsFigures, { number }: ReasonFormat): string {
  const ratio = starts / normalPerDay;
  return `${number(ratio, ratio < 10 ? 1 : 0)} times its normal count of ${number(normalPerDay)}`;
}
