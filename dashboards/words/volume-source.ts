/**
 * Where the liters of a pump's runs come from: a flow meter that was heard, else pressure and the
 * tank, else nowhere. What is metered was measured; what is calculated rests on the card's tank,
 * and people should know which of the two they read.
 */
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';

export function volumeSourceWords({ sensors, card }: WellDetail, { pump, control }: PumpDetail): string {
  const meter = pump === 'p1' ? 'flow' : `${pump}/flow`;
  if (sensors.some(({ channel, lastMs }) => channel === meter && lastMs !== undefined)) return 'metered';
  if (control !== 'pressure-switch') return 'not known without a flow meter';
  return card.tankKind === 'captive-air' && card.tankL !== undefined
    ? 'reckoned from pressure and tank'
    : 'not known without tank or flow meter';
}
