/**
 * How much water a pressure tank holds at a pressure. Boyle's law on absolute pressure: the air
 * that filled the whole tank at the precharge is squeezed into `volume * precharge / pressure`
 * (Pelikan, "How to Calculate and Control Pressure Tank Drawdown", The Driller, 2006). Gauge
 * pressures go in, so the site's altitude matters: thin air outside makes the same gauge pressure a
 * smaller absolute one.
 */
import type { TankCard } from '../domain/card.ts';

/**
 * A tank that can be reckoned with: all in litres and kPa, the air charge as `airKpaL` = volume x
 * absolute precharge.
 */
export interface Tank {
  volumeL: number;
  atmosphereKpa: number;
  /**
   * Absolute precharge times volume: all that pressure alone can ever show of the air, since dW/dP
   * = airKpaL / P².
   */
  airKpaL: number;
}

/**
 * Pressure of the open air at an altitude in metres, kPa. US Standard Atmosphere 1976, lower layer:
 * 101.325 at sea level, 84.3 at 1,524 m (5,000 ft).
 */
export function atmosphereKpa(altitudeM: number): number {
  return 101.325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}

/**
 * The tank of a card, or nothing where its volume or air charge is not known. A plain tank is taken
 * as filled from atmospheric air (gauge precharge 0), which is the most that it can hold.
 */
export function tankOf(card: TankCard | undefined, altitudeM: number): Tank | undefined {
  if (card?.volumeL === undefined) return undefined;
  const prechargeKpa = card.prechargeKpa ?? (card.kind === 'plain' ? 0 : undefined);
  if (prechargeKpa === undefined) return undefined;
  const outside = atmosphereKpa(altitudeM);
  return { volumeL: card.volumeL, atmosphereKpa: outside, airKpaL: card.volumeL * (prechargeKpa + outside) };
}

/** Gauge precharge of a tank, kPa. */
export function prechargeKpa(tank: Tank): number {
  return tank.airKpaL / tank.volumeL - tank.atmosphereKpa;
}

/**
 * Water in the tank at a gauge pressure, L, once the air has the temperature it had when it was
 * charged. Under the precharge the tank is empty: 0.
 */
export function waterInTankL(tank: Tank, gaugeKpa: number): number {
  const absolute = gaugeKpa + tank.atmosphereKpa;
  return absolute <= 0 ? 0 : Math.max(0, tank.volumeL - tank.airKpaL / absolute);
}

/**
 * Gauge pressure at which the tank holds so much water, kPa; the other way round of `waterInTankL`.
 */
export function pressureOfWaterKpa(tank: Tank, waterL: number): number {
  return tank.airKpaL / Math.max(1e-9, tank.volumeL - waterL) - tank.atmosphereKpa;
}

/**
 * Water between cut-out and cut-in, L (`tankDrawdown`; never to be mixed with the fall of the
 * well's own water level). With the precharge above cut-in the tank is empty before the switch
 * closes, and only what lies above the precharge counts.
 */
export function tankDrawdownL(tank: Tank, points: { cutInKpa: number; cutOutKpa: number }): number {
  return waterInTankL(tank, points.cutOutKpa) - waterInTankL(tank, points.cutInKpa);
}

/**
 * Share of the tank's volume that is drawn between the switch points: the trade's acceptance
 * factor.
 */
export function acceptanceFactor(tank: Tank, points: { cutInKpa: number; cutOutKpa: number }): number {
  return tankDrawdownL(tank, points) / tank.volumeL;
}
