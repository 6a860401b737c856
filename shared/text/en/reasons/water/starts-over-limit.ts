/** Why `starts-over-limit` is active, in words. */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

type OverLimitFigures = {
  starts: number;
  /** The running day, a whole day, or a whole day after another one over the limit. */
  over: 'today' | 'one-day' | 'two-days';
  limitPerDay: number;
  isSizeKnown: boolean;
};

export const startsOverLimitReasons = {
  'starts-over-daily-limit': (figures: OverLimitFigures & { normalPerDay?: number }, format) => {
    const { normalPerDay } = figures;
    const normal =
      normalPerDay === undefined
        ? ''
        : ` The pump normally starts ${format.count(normalPerDay, 'time', 'times')} a day.`;
    return `${startsText(figures, format)}${normal}`;
  },
  'starts-always-over-limit': (figures: OverLimitFigures & { normalPerDay: number }, format) =>
    `${startsText(figures, format)} It has started about ${format.number(figures.normalPerDay)} times a day since it was first watched. The tank is small for this pump and this use.`,
} satisfies ReasonTexts;

function startsText(
  { starts, over, limitPerDay, isSizeKnown }: OverLimitFigures,
  format: ReasonFormat,
): string {
  const times = format.count(starts, 'time', 'times');
  const started = {
    today: `has started ${times} so far today`,
    'one-day': `started ${times} in one day`,
    'two-days': `started ${times} in the last day, and was over its limit the day before too`,
  }[over];
  const motor = isSizeKnown ? 'This motor allows' : 'A motor of unknown size allows at most';
  return `The pump ${started}. ${motor} about ${format.number(limitPerDay)} starts a day.`;
}
