/**
 * One budget a well: so many false alarms a year for all statistical watches together, shared out among them, each share turned into
 * a run length by how many values a year the watch judges. Physical watches have no share: their limits come from the card and the
 * standards.
 */
import type { AlarmKind } from '../../shared/words/kinds.ts';

/** False alarms a year that a well may have by chance, where nobody said otherwise: one in twenty years. */
export const FALSE_ALARMS_A_YEAR = 0.05;

/** How the budget is shared: each of these judges every run, in one direction or both. */
const SHARES = {
  'amps-high': 3,
  'amps-low': 3,
  'slow-fill': 2,
  'tank-air-lost': 2,
  'cycle-count': 1,
} satisfies Partial<Record<AlarmKind, number>>;
export type StatisticalKind = keyof typeof SHARES;
const ALL_SHARES = Object.values(SHARES).reduce((sum, share) => sum + share, 0);

/** The run length (values between false alarms) that keeps a watch within its share; never under a hundred values. */
export function runLengthFor(
  kind: StatisticalKind,
  valuesAYear: number,
  falseAlarmsAYear = FALSE_ALARMS_A_YEAR,
): number {
  const share = (falseAlarmsAYear * SHARES[kind]) / ALL_SHARES;
  return Math.max(100, valuesAYear / share);
}

/**
 * By how much to widen sigma where values hang together as AR(1) with correlation `phi`: a CUSUM sums them, and the sum of correlated
 * values spreads as sigma x sqrt((1 + phi) / (1 - phi)) (the long-run variance of AR(1); Johnson & Bagshaw 1974).
 */
export function widenFor(phi: number): number {
  const bounded = Math.min(0.9, Math.max(0, phi));
  return Math.sqrt((1 + bounded) / (1 - bounded));
}
