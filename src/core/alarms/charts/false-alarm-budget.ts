/**
 * One budget a well: so many false alarms a year for all statistical watches together, shared out
 * among them, each share turned into a run length by how many values a year the watch judges.
 * Physical watches have no share: their limits come from the card and the standards.
 */
import { CATALOGUE, type StatisticalKind } from '../../../../shared/alarms/catalogue.ts';
import type { Card } from '../../domain/card.ts';

/**
 * False alarms a year that a well may have by chance, where nobody said otherwise: one in twenty
 * years.
 */
export const DEFAULT_FALSE_ALARMS_PER_YEAR = 0.05;

const ALL_SHARES = Object.values(CATALOGUE).reduce((sum, { chance }) => sum + (chance?.share ?? 0), 0);

/**
 * The run length (values between false alarms) of each chart that keeps a watch within its share;
 * never under a hundred values. The well's budget is its card's (src/core/domain/card.ts); several
 * pumps share it.
 */
export function runLengthFor(
  kind: StatisticalKind,
  valuesPerYear: number,
  { falseAlarmsPerYear = DEFAULT_FALSE_ALARMS_PER_YEAR, pumps }: Pick<Card, 'falseAlarmsPerYear' | 'pumps'>,
): number {
  const { share, charts } = CATALOGUE[kind].chance;
  const falseAlarmsPerYearAllowed = (falseAlarmsPerYear * share) / ALL_SHARES / pumps.length;
  return Math.max(100, (charts * valuesPerYear) / falseAlarmsPerYearAllowed);
}

/**
 * By how much to widen sigma where values hang together as AR(1) with correlation `phi`: a CUSUM
 * sums them, and the sum of correlated values spreads as sigma x sqrt((1 + phi) / (1 - phi)) (the
 * long-run variance of AR(1); Johnson & Bagshaw 1974).
 */
export function autocorrelationFactor(phi: number): number {
  const bounded = Math.min(0.9, Math.max(0, phi));
  return Math.sqrt((1 + bounded) / (1 - bounded));
}
