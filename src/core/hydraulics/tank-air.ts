/**
 * The tank's air charge. Pressure shows only the ratio of the pump's delivery to the air charge: a
 * fill twice as steep is a pump twice as strong or half the air. But a pump does not get stronger
 * with age, and a tank does not gain air by itself. So a fill steeper than the first ones under
 * this card is air lost, at the delivery that was then; a slower one is a weaker pump, at the
 * card's air charge. The motor's current is the witness where the pump may have gained (risen water
 * table, supply voltage): it follows the flow, and knows nothing of the tank. An overcharged tank
 * shows itself by the knee (./knee.ts).
 */
import type { DeliveryEstimate } from './delivery.ts';
import { rateAt } from './delivery-curve.ts';
import { detectedKneeKpa, type Knee } from './knee.ts';
import type { Tank } from './tank.ts';

/**
 * The air was pumped in on a warm day or from a warm compressor, and then lies on water as cold as
 * the ground: the same air takes less room. 20 C is the usual standard for a gauge, 11 C the ground
 * water of a temperate place (both common practice, no source). A known temperature would be
 * better; without it this leaves about 3 % for a tank in a heated cellar. The knee shows the air as
 * it lies there.
 */
const CHARGED_AT_K = 273.15 + 20;
const TANK_AIR_K = 273.15 + 11;
/**
 * Steeper by this much is still the pump: supply voltage, water table, noise. Twice that, and all
 * of it is the air.
 */
const PUMP_GAIN_SLACK = 0.06;
/**
 * Running current rises by at least this share of the flow's rise, in a centrifugal pump (practice,
 * no source).
 */
const AMPS_PER_FLOW = 0.2;
/** A gain of the pump beyond this is not believed, whatever its current. */
const MAX_PUMP_GAIN = 0.3;

export interface TankAir {
  /** Air charge against the card's, 1 = all of it. Over 1 only where a knee shows it. */
  ratio: number;
  /** The precharge that it amounts to, kPa gauge; only with a tank on the card. */
  prechargeKpa?: number;
  /** Pressure under which the tank is empty, as the starts of the runs show it, kPa gauge. */
  kneeKpa?: number;
  /** Fills that it rests on. */
  fillCount: number;
}

export interface AirInputs {
  delivery: DeliveryEstimate;
  knee: Knee;
  tank: Tank | null;
}

/**
 * Share of the card's air charge that is there, by the last fills and knees. 1 until enough were
 * seen.
 */
export function airRatio(inputs: AirInputs): number {
  return kneeRatio(inputs) * remainingRatio(inputs.delivery);
}

/**
 * The air charge to reckon litres with, as warm as it lies in the tank, kPa L; 0 without a tank on
 * the card.
 */
export function currentAirKpaL(inputs: AirInputs): number {
  if (!inputs.tank) return 0;
  const warmth = detectedKneeKpa(inputs.knee) === undefined ? TANK_AIR_K / CHARGED_AT_K : 1;
  return inputs.tank.airKpaL * airRatio(inputs) * warmth;
}

export function estimateTankAir(inputs: AirInputs): TankAir | undefined {
  const { delivery, tank } = inputs;
  const kneeKpa = detectedKneeKpa(inputs.knee);
  if (kneeKpa === undefined && !(delivery.curve && delivery.reference)) return undefined;
  const air: TankAir = { ratio: airRatio(inputs), fillCount: delivery.fillCount };
  if (tank) air.prechargeKpa = (tank.airKpaL * air.ratio) / tank.volumeL - tank.atmosphereKpa;
  if (kneeKpa !== undefined) air.kneeKpa = kneeKpa;
  return air;
}

/**
 * Delivery as it now is against that first learnt, 1 = as ever, with lost air reckoned out;
 * undefined before both are known.
 */
export function deliveryRatioOf(inputs: AirInputs): number | undefined {
  const steeper = steepnessRatio(inputs.delivery);
  return steeper === undefined ? undefined : steeper * remainingRatio(inputs.delivery);
}

function steepnessRatio(delivery: DeliveryEstimate): number | undefined {
  const { curve, reference } = delivery;
  return curve && reference ? rateAt(curve, reference.kpa) / reference.rate : undefined;
}

function remainingRatio(delivery: DeliveryEstimate): number {
  const steeper = steepnessRatio(delivery);
  if (steeper === undefined || steeper <= 1) return 1;
  const gain = steeper - 1;
  if (gain <= MAX_PUMP_GAIN && ampsRose(delivery, gain)) return 1;
  return (1 + Math.min(gain, Math.max(0, 2 * PUMP_GAIN_SLACK - gain))) / steeper;
}

function ampsRose({ curve, reference }: DeliveryEstimate, gain: number): boolean {
  if (!curve?.amps || !reference?.amps || gain < PUMP_GAIN_SLACK) return false;
  return curve.amps / reference.amps - 1 >= AMPS_PER_FLOW * gain;
}

/** A knee over the card's precharge is more air than it says. */
function kneeRatio({ knee, tank }: AirInputs): number {
  const kneeKpa = tank ? detectedKneeKpa(knee) : undefined;
  if (!tank || kneeKpa === undefined) return 1;
  return Math.max(1, ((kneeKpa + tank.atmosphereKpa) * tank.volumeL) / tank.airKpaL);
}
