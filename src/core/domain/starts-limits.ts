/**
 * How often a motor may start. Each start heats the windings as minutes of running do, so the limit falls with size. Spread evenly
 * over the day is meant: the same hundred starts in eight hours are worse.
 */
import { hpFromW } from '../../../shared/units/power.ts';

/**
 * Starts in 24 h by motor size and phase: widely repeated in trade handbooks (from memory); its first row and the fall with size
 * agree with "Tank Selection by the Numbers", Water Well Journal, and the Water Systems Council's tank standard (300 a day).
 */
const STARTS_PER_DAY: readonly { toHp: number; phase1: number; phase3: number }[] = [
  { toHp: 0.75, phase1: 300, phase3: 300 },
  { toHp: 5.5, phase1: 100, phase3: 300 },
  { toHp: 30, phase1: 50, phase3: 100 },
  { toHp: Number.POSITIVE_INFINITY, phase1: 50, phase3: 100 },
];

/** Water Systems Council tank standard (read in extract): at most 15 starts an hour up to 3/4 hp, 7.5 above. */
const STARTS_PER_HOUR: readonly { toHp: number; starts: number }[] = [
  { toHp: 0.75, starts: 15 },
  { toHp: Number.POSITIVE_INFINITY, starts: 7.5 },
];

/** A plate in kW is a little over its size in hp (0.56 kW for 3/4 hp): 3 % belongs to the smaller size. */
const SIZE_TOLERANCE = 1.03;

export interface StartsLimits {
  perDay: number;
  perHour: number;
  /** False where the card does not give the motor's size, and the limits are those of the smallest motors. */
  sizeKnown: boolean;
}

/** Starts that a motor of this size and phase may make. Without a size the widest limits hold: nothing is claimed that is not known. */
export function startsLimits(motor: { motorW?: number; phase?: 1 | 3 }): StartsLimits {
  const hp = motor.motorW === undefined ? 0 : hpFromW(motor.motorW);
  const day = STARTS_PER_DAY.find((row) => hp <= row.toHp * SIZE_TOLERANCE);
  const hour = STARTS_PER_HOUR.find((row) => hp <= row.toHp * SIZE_TOLERANCE);
  return {
    perDay: (motor.phase === 3 ? day?.phase3 : day?.phase1) ?? 50,
    perHour: hour?.starts ?? 7.5,
    sizeKnown: motor.motorW !== undefined,
  };
}
