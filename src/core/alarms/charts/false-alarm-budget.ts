/**
 * One budget a well: so many false alarms a year for all statistical watches together, shared out
 * among them, each share turned into a run length by how many values a year the watch judges.
 * Physical watches have no share: their limits come from the card and the standards.
 */
import type { AlarmKind } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Card } from '../../domain/card.ts';

/**
 * False alarms a year that a well may have by chance, where nobody said otherwise: one in twenty
 * years.
 */
export const DEFAULT_FALSE_ALARMS_PER_YEAR = 0.05;

/**
 * How the budget is shared, and how many one-way charts of its run length each kind reads. Of
 * running current each way has its own CUSUM and half of a two-way EWMA.
 */
const SHARES = {
  'amps-high': { share: 3, charts: 1.5 },
  'amps-low': { share: 3, charts: 1.5 },
  'cycle-count': { share: 1, charts: 1 },
} satisfies Partial<Record<AlarmKind, { share: number; charts: number }>>;
export type StatisticalKind = keyof typeof SHARES;
const ALL_SHARES = Object.values(SHARES).reduce((sum, { share }) => sum + share, 0);

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
  const { share, charts } = SHARES[kind];
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
