/**
 * Which pumps of a well feed its pressure tank, and whether litres can be read from pressure there.
 * A float or a timer fills a store; a pump with a pressure of its own feeds something else.
 * Pressure gives litres only where a pump runs at full speed between two points: what a drive or a
 * constant-pressure valve lets through while it holds the pressure cannot be seen from it.
 */
import { readsMeans } from '../cycles/pump-state.ts';
import type { PumpCard } from '../domain/card.ts';
import type { WellState } from './well-state.ts';

/** Does a drive set this pump's speed? */
export function hasDrive(pump: PumpCard): boolean {
  return pump.control === 'variable-speed';
}

/** Does this pump answer to a pressure, whichever? */
export function isPressurePump(pump: PumpCard): boolean {
  return pump.control !== 'float' && pump.control !== 'timer';
}

/** Does this pump feed the tank at which the whole well's pressure is measured? */
export function feedsTank(well: WellState, at: number): boolean {
  const pump = well.card.pumps[at];
  return pump !== undefined && isPressurePump(pump) && well.records[at]?.ownPressureBuffer === undefined;
}

/** Are litres of runs and days to be read from the tank's pressure? */
export function litersFromPressure(well: WellState): boolean {
  const feeding = well.card.pumps.filter((_, at) => feedsTank(well, at));
  if (feeding.length === 0 || feeding.some((pump) => pump.control !== 'pressure-switch')) return false;
  // Of a run that may have begun a minute before its first mean the pressures of the fill are not
  // known.
  return !well.pumps.some((pump, at) => feedsTank(well, at) && readsMeans(pump));
}

/**
 * Is a leak to be read from the tank at rest? It is the tank that loses then, whatever filled it.
 */
export function leakFromPressure(well: WellState): boolean {
  return well.card.pumps.some((_, at) => feedsTank(well, at));
}
