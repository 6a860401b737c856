/** What is said of `starts-over-limit`. */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

type OverLimitFigures = {
  starts: number;
  /** The running day, a whole day, or a whole day after another one over the limit. */
  over: 'today' | 'one-day' | 'two-days';
  limitPerDay: number;
  isSizeKnown: boolean;
};

export const startsOverLimitText = {
  title: 'More starts in a day than the motor allows',
  means: 'Motors of this size are made for fewer starts in a day. The motor wears out in months, not today.',
  firstStep:
    'Most often the pressure tank has no air: knock on it from top to bottom. If it sounds full all the way up, it has lost its air. Else look for a leak. Have {firm} check the tank this week.',
  canBeWrong:
    'Without the motor’s size on the card, the limit is that of the smallest motors, and a larger one may stand fewer. One day of guests, a garden or a pool passes. Limits differ between makers: the nameplate or the manual rules.',
  needs: 'Current, for a whole day. The motor’s size on the card says how many starts are allowed.',
  cautions: ['precharge', 'well-pit', 'local-rules'],
  reasons: {
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
  },
} satisfies AlarmText;

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
