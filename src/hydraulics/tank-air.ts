/**
 * The tank's air charge. Pressure shows only the ratio of the pump's delivery to the air charge: a fill twice as steep is a pump
 * twice as strong or half the air. But a pump does not get stronger with age, and a tank does not gain air by itself. So a fill
 * steeper than the first ones under this card is air lost, at the delivery that was then; a slower one is a weaker pump, at the
 * card's air charge. The motor's current is the witness where the pump may have gained (risen water table, supply voltage): it
 * follows the flow, and knows nothing of the tank. An overcharged tank shows itself by the knee (./knee.ts).
 */
import type { Delivery } from './delivery.ts';
import { rateAt } from './level.ts';
import { kneeFound, type Knee } from './knee.ts';
import type { Tank } from './tank.ts';

/**
 * The air was pumped in on a warm day or from a warm compressor, and then lies on water as cold as the ground: the same air takes less
 * room. 20 C is the usual standard for a gauge, 11 C the ground water of a temperate place (both common practice, no source). A known
 * temperature would be better; without it this leaves about 3 % for a tank in a heated cellar. The knee shows the air as it lies there.
 */
const CHARGED_AT_K = 273.15 + 20;
const LIES_AT_K = 273.15 + 11;
/** Steeper by this much is still the pump: supply voltage, water table, noise. Twice that, and all of it is the air. */
const SLACK = 0.06;
/** Running current rises by at least this share of the flow's rise, in a centrifugal pump (practice, no source). */
const AMPS_PER_FLOW = 0.2;
/** A gain of the pump beyond this is not believed, whatever its current. */
const PUMP_GAINS_MOST = 0.3;

export interface TankAir {
  /** Air charge against the card's, 1 = all of it. Over 1 only where a knee shows it. */
  share: number;
  /** The precharge that it amounts to, kPa gauge; only with a tank on the card. */
  airKpa?: number;
  /** Pressure under which the tank is empty, as the starts of the runs show it, kPa gauge. */
  kneeKpa?: number;
  /** Fills that it rests on. */
  fills: number;
}

export interface AirSeen {
  delivery: Delivery;
  knee: Knee;
  tank: Tank | null;
}

/** Share of the card's air charge that is there, by the last fills and knees. 1 until enough were seen. */
export function airShare(seen: AirSeen): number {
  return kneeShare(seen) * shareLeft(seen.delivery);
}

/** The air charge to reckon litres with, as warm as it lies in the tank, kPa L; 0 without a tank on the card. */
export function airNowKpaL(seen: AirSeen): number {
  if (!seen.tank) return 0;
  const warmth = kneeFound(seen.knee) === undefined ? LIES_AT_K / CHARGED_AT_K : 1;
  return seen.tank.airKpaL * airShare(seen) * warmth;
}

export function airCharge(seen: AirSeen): TankAir | undefined {
  const { delivery, tank } = seen;
  const kneeKpa = kneeFound(seen.knee);
  if (kneeKpa === undefined && !(delivery.level && delivery.reference)) return undefined;
  const air: TankAir = { share: airShare(seen), fills: delivery.fills };
  if (tank) air.airKpa = (tank.airKpaL * air.share) / tank.volumeL - tank.atmosphereKpa;
  if (kneeKpa !== undefined) air.kneeKpa = kneeKpa;
  return air;
}

/** Delivery as it now is against that first learnt, 1 = as ever, with lost air reckoned out; undefined before both are known. */
export function deliveryShare(seen: AirSeen): number | undefined {
  const steeper = steepness(seen.delivery);
  return steeper === undefined ? undefined : steeper * shareLeft(seen.delivery);
}

function steepness(delivery: Delivery): number | undefined {
  const { level, reference } = delivery;
  return level && reference ? rateAt(level, reference.kpa) / reference.rate : undefined;
}

function shareLeft(delivery: Delivery): number {
  const steeper = steepness(delivery);
  if (steeper === undefined || steeper <= 1) return 1;
  const gain = steeper - 1;
  if (gain <= PUMP_GAINS_MOST && ampsRose(delivery, gain)) return 1;
  return (1 + Math.min(gain, Math.max(0, 2 * SLACK - gain))) / steeper;
}

function ampsRose({ level, reference }: Delivery, gain: number): boolean {
  if (!level?.amps || !reference?.amps || gain < SLACK) return false;
  return level.amps / reference.amps - 1 >= AMPS_PER_FLOW * gain;
}

/** A knee over the card's precharge is more air than it says. */
function kneeShare({ knee, tank }: AirSeen): number {
  const kneeKpa = tank ? kneeFound(knee) : undefined;
  if (!tank || kneeKpa === undefined) return 1;
  return Math.max(1, ((kneeKpa + tank.atmosphereKpa) * tank.volumeL) / tank.airKpaL);
}
