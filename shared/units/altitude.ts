/**
 * Air pressure by altitude: an air-charged tank works in absolute pressure, and at 5,000 ft a sixth
 * of the sea-level air is missing. Formula: US Standard Atmosphere 1976, troposphere (from memory;
 * recomputed against a table in the tests).
 */

/** Standard atmosphere at sea level, kPa, exact by definition. */
export const SEA_LEVEL_KPA = 101.325;
/** Temperature lapse over sea-level temperature: 0.0065 K/m / 288.15 K. */
const LAPSE_PER_M = 2.25577e-5;
/** g M / (R L): 9.80665 x 0.0289644 / (8.31447 x 0.0065). */
const EXPONENT = 5.25588;
/** Where the troposphere of the standard atmosphere ends. */
const TROPOPAUSE_M = 11_000;

/**
 * Mean atmospheric pressure at an altitude, kPa absolute. The weather moves it by about 3 kPa
 * either way.
 * @throws RangeError above the troposphere: nothing here is ever drilled there.
 */
export function atmosphericKpa(altitudeM: number): number {
  if (!(altitudeM <= TROPOPAUSE_M)) {
    throw new RangeError(
      `Cannot tell air pressure: altitude must be at most ${TROPOPAUSE_M} m: ${altitudeM}`,
    );
  }
  return SEA_LEVEL_KPA * (1 - LAPSE_PER_M * altitudeM) ** EXPONENT;
}
