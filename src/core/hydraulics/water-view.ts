/** What is said of the water: to the watches each minute, and of a day that is over. */
import { HOUR_S } from '../../../shared/units/duration.ts';
import { continuousLoss } from './continuous-loss.ts';
import { resetDayQuality, newDayQuality, missingTotalReason } from './day-quality.ts';
import { closeQuietDay } from './quiet-blocks.ts';
import { estimateTankAir, deliveryRatioOf, type TankAir } from './tank-air.ts';
import { prechargeKpa } from './tank.ts';
import { leakAirKpaL, type WaterState } from './water-state.ts';

/** Cover of a day that its total may be told from. */
const MIN_COVERAGE = 0.9;

/**
 * A loss at rest. Litres only with a tank on the card; without one, in relation to the pressure and
 * to the pump.
 */
export interface Loss {
  lPerH?: number;
  /** What it takes from the pressure in the middle of the band, kPa an hour. */
  fallKpaPerH: number;
  /** Of what the pump delivers; absent while that is not learnt. */
  deliveryFraction?: number;
}

/** What the watches see of the water. */
export interface WaterView {
  deliveryRatio?: number | undefined;
  prechargeKpa?: number | undefined;
  normalPrechargeKpa?: number | undefined;
  /** Loss of the last whole day, where its quiet hours could be judged. */
  dayLoss?: Loss | undefined;
  /** Loss that has not ceased for so many hours. */
  continuousLoss?: (Loss & { hours: number }) | undefined;
}

/** `atMs`: the moment it is asked at. */
export function waterView(state: WaterState, atMs: number): WaterView {
  const continuous = continuousLoss(state.quietBlocks.hourlyLows, Math.max(atMs, state.lastMs));
  // Asked each minute: every field is named and none is spread, so that all views have one shape.
  return {
    deliveryRatio: deliveryRatioOf(state),
    prechargeKpa: tankAirOf(state)?.prechargeKpa,
    normalPrechargeKpa: state.tank ? prechargeKpa(state.tank) : undefined,
    dayLoss: state.dayLossLPerH === undefined ? undefined : lossOf(state, state.dayLossLPerH, {}),
    continuousLoss: continuous && lossOf(state, continuous.lPerH, { hours: continuous.hours }),
  };
}

/** Fills `into` with the loss. */
function lossOf<T extends object>(state: WaterState, lPerH: number, into: T): T & Loss {
  const { curve } = state.delivery;
  const rate = lPerH / HOUR_S / leakAirKpaL(state);
  const absolute = (curve?.kpa ?? state.lastKpa) + state.atmosphereKpa;
  const loss: T & Partial<Loss> = into;
  if (state.tank) loss.lPerH = lPerH;
  loss.fallKpaPerH = rate * HOUR_S * absolute ** 2;
  if (curve) loss.deliveryFraction = rate / curve.rate;
  return loss as T & Loss;
}

export interface TankDayWater {
  /** Water drawn in the day, leak included, L. */
  usedL?: number;
  leakLPerDay?: number;
}

/**
 * Ends the day. Without a tank on the card, with a tenth of the day unheard, or with water that
 * nobody saw come, there is no total.
 */
export function closeTankDay(state: WaterState, dayStartMs: number, dayEndMs: number): TankDayWater {
  const covered = state.coveredS >= ((dayEndMs - dayStartMs) / 1000) * MIN_COVERAGE;
  const leak = closeQuietDay(state.quietBlocks);
  const { usedL } = state;
  const quality = (state.dayQuality ??= newDayQuality());
  const tank = { volumeL: state.tank?.volumeL ?? 0, airL: state.lastAirVolume * state.currentAirKpaL };
  const hasTotal = covered && !missingTotalReason(quality, usedL, tank);
  if (leak) state.dayLossLPerH = leak.leakLPerDay / 24;
  else delete state.dayLossLPerH;
  state.usedL = 0;
  state.coveredS = 0;
  resetDayQuality(quality, tank);
  if (!state.tank) return {};
  return { ...(hasTotal && { usedL: Math.max(0, usedL) }), ...leak };
}

/** The tank's air charge as fills show it; undefined before enough fills. */
export function tankAirOf(state: WaterState): TankAir | undefined {
  return estimateTankAir(state);
}
