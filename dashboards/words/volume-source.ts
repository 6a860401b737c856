/**
 * Where the liters of a pump's runs come from: a flow meter that was heard, else pressure and the
 * tank, else nowhere. What is metered was measured; what is calculated rests on the card's tank,
 * and people should know which of the two they read.
 */
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { texts } from '../texts.ts';

export function volumeSourceWords({ sensors, card }: WellDetail, { pump, control }: PumpDetail): string {
  const meter = pump === 'p1' ? 'flow' : `${pump}/flow`;
  if (sensors.some(({ channel, lastMs }) => channel === meter && lastMs !== undefined))
    return texts().metered;
  if (control !== 'pressure-switch') return texts().noFlowMeter;
  return card.tankKind === 'captive-air' && card.tankL !== undefined
    ? texts().fromPressure
    : texts().noTankNorMeter;
}
