/** What is said of the water: to the watches each minute, and of a day that is over. */
import { ceaselessLoss } from './ceaseless.ts';
import { endDoubtDay, newDoubt, whyNoTotal } from './day-doubt.ts';
import { endQuietDay } from './quiet.ts';
import { airCharge, deliveryShare, type TankAir } from './tank-air.ts';
import { prechargeKpa } from './tank.ts';
import { quietAirKpaL, type WaterState } from './water-state.ts';

/** Cover of a day that its total may be told from. */
const COVER_NEEDED = 0.9;

/** A loss at rest. Litres only with a tank on the card; without one, in relation to the pressure and to the pump. */
export interface Loss {
  lPerH?: number;
  /** What it takes from the pressure in the middle of the band, kPa an hour. */
  fallKpaPerH: number;
  /** Of what the pump delivers; absent while that is not learnt. */
  share?: number;
}

/** What the watches see of the water. */
export interface WaterView {
  deliveryShare?: number;
  airKpa?: number;
  airNormalKpa?: number;
  /** Loss of the last whole day, where its quiet hours could be judged. */
  dayLoss?: Loss;
  /** Loss that has not ceased for so many hours. */
  ceaseless?: Loss & { hours: number };
}

/** `atMs`: the moment it is asked at. */
export function waterView(state: WaterState, atMs: number): WaterView {
  // Asked each minute: fields are set one by one, which makes less than spreading them.
  const view: WaterView = {};
  const share = deliveryShare(state);
  if (share !== undefined) view.deliveryShare = share;
  const airKpa = tankAir(state)?.airKpa;
  if (airKpa !== undefined) view.airKpa = airKpa;
  if (state.tank) view.airNormalKpa = prechargeKpa(state.tank);
  if (state.dayLossLPerH !== undefined) view.dayLoss = lossOf(state, state.dayLossLPerH, {});
  const ceaseless = ceaselessLoss(state.quiet.ceaseless, Math.max(atMs, state.lastMs));
  if (ceaseless) view.ceaseless = lossOf(state, ceaseless.lPerH, { hours: ceaseless.hours });
  return view;
}

/** Fills `into` with the loss. */
function lossOf<T extends object>(state: WaterState, lPerH: number, into: T): T & Loss {
  const { level } = state.delivery;
  const rate = lPerH / 3600 / quietAirKpaL(state);
  const absolute = (level?.kpa ?? state.lastKpa) + state.atmosphereKpa;
  const loss: T & Partial<Loss> = into;
  if (state.tank) loss.lPerH = lPerH;
  loss.fallKpaPerH = rate * 3600 * absolute ** 2;
  if (level) loss.share = rate / level.rate;
  return loss as T & Loss;
}

export interface DayWater {
  /** Water drawn in the day, leak included, L. */
  usedL?: number;
  leakLPerDay?: number;
  /** Standard error of the leak, L a day. */
  leakSpread?: number;
}

/** Ends the day. Without a tank on the card, with a tenth of the day unheard, or with water that nobody saw come, there is no total. */
export function waterDay(state: WaterState, dayStartMs: number, dayEndMs: number): DayWater {
  const covered = state.coveredS >= ((dayEndMs - dayStartMs) / 1000) * COVER_NEEDED;
  const leak = endQuietDay(state.quiet);
  const { usedL } = state;
  const doubt = (state.doubt ??= newDoubt());
  const tank = { volumeL: state.tank?.volumeL ?? 0, airL: state.lastRoom * state.airNowKpaL };
  const isSaid = covered && !whyNoTotal(doubt, usedL, tank);
  if (leak) state.dayLossLPerH = leak.leakLPerDay / 24;
  else delete state.dayLossLPerH;
  state.usedL = 0;
  state.coveredS = 0;
  endDoubtDay(doubt, tank);
  if (!state.tank) return {};
  return { ...(isSaid && { usedL: Math.max(0, usedL) }), ...leak };
}

/** The tank's air charge as fills show it; undefined before enough fills. */
export function tankAir(state: WaterState): TankAir | undefined {
  return airCharge(state);
}
