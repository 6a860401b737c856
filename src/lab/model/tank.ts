/**
 * The simulated pressure tank: a mass of air that obeys the gas law, warms when it is pressed and
 * cools towards the room. Water and air share the tank's volume. What the engine reckons with
 * Boyle's law must come out of this, not be put in.
 */
export interface TankState {
  /** Volume of the tank, L. */
  volumeL: number;
  /** Pressure x volume of the air at room temperature, kPa L: the mass of air in other words. */
  airKpaL: number;
  /** Air temperature over that of the room, as a ratio (1 = the room's). */
  temperatureRatio: number;
  /** Volume that the air takes now, L. */
  airL: number;
}

/**
 * Ratio of specific heats of air, and how fast a tank's air meets the room's temperature (from
 * memory).
 */
const GAMMA = 1.4;
const COOLING_TIME_S = 90;

/**
 * A tank with `prechargeKpa` of air (gauge) at `atmosphereKpa`, filled until it stands at
 * `gaugeKpa`.
 */
export function newTank(
  volumeL: number,
  prechargeKpa: number,
  atmosphereKpa: number,
  gaugeKpa: number,
): TankState {
  const airKpaL = volumeL * (prechargeKpa + atmosphereKpa);
  return {
    volumeL,
    airKpaL,
    temperatureRatio: 1,
    airL: Math.min(volumeL, airKpaL / (gaugeKpa + atmosphereKpa)),
  };
}

export function tankGaugeKpa(tank: TankState, atmosphereKpa: number): number {
  return (tank.airKpaL * tank.temperatureRatio) / tank.airL - atmosphereKpa;
}

/**
 * Water flows in (positive) or out for `dtS`. Returns the litres that could not be drawn because
 * the tank was empty.
 */
export function tankStep(tank: TankState, inL: number, dtS: number): number {
  const wanted = tank.airL - inL;
  const airL = Math.min(tank.volumeL, Math.max(0.02 * tank.volumeL, wanted));
  tank.temperatureRatio *= 1 + (GAMMA - 1) * ((tank.airL - airL) / tank.airL);
  tank.temperatureRatio += ((1 - tank.temperatureRatio) * dtS) / COOLING_TIME_S;
  tank.airL = airL;
  return Math.max(0, wanted - airL);
}
