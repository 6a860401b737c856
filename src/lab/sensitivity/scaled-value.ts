/** What a threshold is at 0.8 and 1.2 of its value. */
import { isWhole, unitOf } from './threshold-unit.ts';

export const FACTORS = [0.8, 1.2] as const;
export type Factor = (typeof FACTORS)[number];

/**
 * So many runs or days stay whole numbers, and move by one at least; a rank or a fraction stays
 * within the whole.
 */
export function scaledValue(id: string, value: number, factor: number): number {
  const scaled = value * factor;
  if (/(RANK|FRACTION)$/.test(id)) return Math.min(1, scaled);
  if (factor === 1 || !isWhole(unitOf(id.split(' ')[1]!), value)) return scaled;
  return factor < 1 ? Math.min(value - 1, Math.round(scaled)) : Math.max(value + 1, Math.round(scaled));
}
