/**
 * The least time in which this pump can fill this tank from cut-in to cut-out: the tank's drawdown
 * by Boyle's law over the most that the pump can lift. Most is half again its rated flow, or, where
 * that is not on the card, what the motor's power could lift at most against the pressure at cut-in
 * alone, from no depth, at 65 % (pump and motor of this size reach less; common practice). Fills
 * far quicker than that are of a tank that has lost its air, or of another tank than the card's.
 */
import type { Card, PumpCard } from '../domain/card.ts';
import { tankDrawdownL, tankOf } from '../hydraulics/tank.ts';

/** Argued; a pump curve would say it, and the card holds none. */
const MAX_RATED_RATIO = 1.5;
const BEST_EFFICIENCY = 0.65;
/**
 * A switch that learnt nothing yet sits 2 psi over the precharge (Water Systems Council, "Pressure
 * Tanks", 2007).
 */
const PRECHARGE_UNDER_CUT_IN_KPA = 14;

/** Seconds; undefined where the card says too little. */
export function minFillS(
  card: Card,
  pump: PumpCard,
  band: { cutInKpa: number; cutOutKpa: number },
): number | undefined {
  if (card.tank?.kind === 'plain' || card.pumps.length > 1) return undefined;
  const tank = tankOf(
    card.tank && { prechargeKpa: band.cutInKpa - PRECHARGE_UNDER_CUT_IN_KPA, ...card.tank },
    card.altitudeM,
  );
  const maxRateLPerS = maxLPerS(pump, band.cutInKpa);
  if (!tank || maxRateLPerS === undefined || band.cutOutKpa <= band.cutInKpa) return undefined;
  return tankDrawdownL(tank, band) / maxRateLPerS;
}

function maxLPerS(pump: PumpCard, cutInKpa: number): number | undefined {
  if (pump.ratedLPerS !== undefined) return MAX_RATED_RATIO * pump.ratedLPerS;
  if (pump.motorW === undefined || cutInKpa < 50) return undefined;
  // Watts over kilopascals are litres a second.
  return (BEST_EFFICIENCY * pump.motorW) / cutInKpa;
}
