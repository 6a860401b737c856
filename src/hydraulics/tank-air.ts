/**
 * The tank's air charge. Pressure shows only the ratio of the pump's delivery to the air charge: a fill twice as steep is a pump
 * twice as strong or half the air. But a pump does not get stronger with age, and a tank does not gain air by itself. So a fill
 * steeper than the first ones under this card is air lost, at the delivery that was then; a slower one is a weaker pump, at the
 * card's air charge. What hides in it: a risen water table of a few percent looks like a little air lost.
 */
import { rateAt, type Delivery } from './delivery.ts';
import type { Tank } from './tank.ts';

/** Steeper by this much is still the pump: supply voltage, water table, noise. */
const SLACK = 1.06;

export interface TankAir {
  /** Air charge against the card's, 1 = all of it. */
  share: number;
  /** The precharge that it amounts to, kPa gauge; only with a tank on the card. */
  airKpa?: number;
  /** Fills that it rests on. */
  fills: number;
}

/** Share of the air charge that is left, by the last fills. 1 until enough were seen. */
export function airShare(delivery: Delivery): number {
  const { level, reference } = delivery;
  if (!level || !reference) return 1;
  return Math.min(1, (reference.rate * SLACK) / rateAt(level, reference.kpa));
}

export function airCharge(delivery: Delivery, tank: Tank | null): TankAir | undefined {
  const { level, reference } = delivery;
  if (!level || !reference) return undefined;
  const share = airShare(delivery);
  return {
    share,
    ...(tank && { airKpa: (tank.airKpaL * share) / tank.volumeL - tank.atmosphereKpa }),
    fills: delivery.fills,
  };
}
