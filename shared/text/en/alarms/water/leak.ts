/**
 * What is said of `leak`. Its reasons: how much is lost, and how it is known that nobody draws
 * it.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

/**
 * Without a tank on the card the fall of pressure, and the fraction of the pump's delivery if that
 * is known.
 */
type LossFigures = { lossLPerDay: number } | { fallKpaPerH: number; deliveryFraction?: number };

export const leakText = {
  title: 'Water is leaking away',
  means:
    'The pressure falls while nobody draws water. Something leaks: in the house, in the ground, or back down the well.',
  firstStep:
    'Push every yard hydrant fully down. Listen at toilets, relief valve and softener. Note the gauge, turn the water heater off and close the valve after the tank for an hour. Read it again, open the valve and turn the heater on. If it fell, it is a hydrant or the pipe to or in the well: call {firm}. If it held, it is after that valve: call a plumber for the house, {firm} for a buried pipe.',
  canBeWrong:
    'A trickle left on against frost, a softener that does not stop rinsing, a relief valve that drips, a drip line, a reverse-osmosis drain or an evaporative cooler looks the same. Without the tank on the card, the amount is not known. With a heat pump on the card, a loss as large as its draw is not reported. Which side of the house valve it is on can’t be seen from here.',
  needs:
    'Pressure and current: half an hour of quiet a day, on two or three days running. With the tank on the card, the loss is told as a volume.',
  cautions: ['buried-cable', 'relief-valve', 'well-pit', 'contamination', 'local-rules'],
  reasons: {
    'lost-on-days': (figures: LossFigures & { days: number }, format) =>
      `${rateText(figures, format)} while nobody draws water. This was so on each of the last ${format.count(figures.days, 'day', 'days')}.${unknownVolumeText(figures, format)}`,
    'lost-without-pause': (figures: LossFigures & { hours: number }, format) =>
      `${rateText(figures, format)} without a pause. This was so in the quietest minutes of every hour, day and night, for ${format.duration(3600 * figures.hours)}.${unknownVolumeText(figures, format)}`,
    /** `restS` is the median of the longest rests of these hours. */
    'lost-between-starts': (figures: LossFigures & { restS: number; hours: number }, format) =>
      `${'lossLPerDay' in figures ? rateText(figures, format) : 'Pressure falls from cut-out to cut-in in each rest of the pump'}. The longest rest of each hour has lasted about ${format.duration(figures.restS)}, day and night, for ${format.duration(3600 * figures.hours)}.${unknownVolumeText(figures, format)}`,
  },
} satisfies AlarmText;

function rateText(loss: LossFigures, { volume, pressure }: ReasonFormat): string {
  return 'lossLPerDay' in loss
    ? `The system loses about ${volume(loss.lossLPerDay)} of water a day`
    : `Pressure falls by ${pressure(loss.fallKpaPerH)} an hour`;
}

function unknownVolumeText(loss: LossFigures, { percent }: ReasonFormat): string {
  if ('lossLPerDay' in loss) return '';
  const { deliveryFraction } = loss;
  const ofPump =
    deliveryFraction === undefined
      ? ''
      : ` The loss is about ${percent(deliveryFraction)} of the pump's delivery.`;
  return `${ofPump} The volume is unknown: the tank is not on the card.`;
}
