/**
 * How far a water heater can raise the pressure of a system at rest. Water swells as it warms, and
 * behind a pressure tank it only squeezes the tank's air a little more: on a well the pressure tank
 * is the expansion tank. So a rise that the tank would take up has another reason.
 */
import { pressureOfWaterKpa, waterInTankL, type Tank } from './tank.ts';

/** Density of water, kg/m³, by temperature, °C: CRC Handbook of Chemistry and Physics. */
const COLD = { c: 10, kgPerM3: 999.7 };
const HOT = { c: 60, kgPerM3: 983.2 };

/**
 * Litres by which so many litres of water swell from 10 °C to 60 °C: from cold well water to a
 * heater's usual setting.
 */
export function swellL(heaterL: number): number {
  return heaterL * (COLD.kgPerM3 / HOT.kgPerM3 - 1);
}

/**
 * Gauge pressure after a heater of so many litres was heated from 10 °C to 60 °C with every tap
 * closed, kPa, from `kpa` before.
 */
export function heatedKpa(tank: Tank, kpa: number, heaterL: number): number {
  return pressureOfWaterKpa(tank, waterInTankL(tank, kpa) + swellL(heaterL));
}
