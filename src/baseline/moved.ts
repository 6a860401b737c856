/**
 * Has a baseline moved so far that it is worth a line? Further than twice the standard error of its median and than a small share
 * of itself, measured from what was told last; else each day would print one.
 */
import type { Baseline, Normal } from './baseline.ts';

/** The standard error of a median is 1.2533 x sigma / sqrt(n) (normal data, large n); two of them leave one in twenty to chance. */
const TWO_ERRORS = 2 * 1.2533;
/** Shares of the value: amps are steady, counts a day are not. */
const LEAST_SHARE = { amps: 0.01, cutInKpa: 0.02, cutOutKpa: 0.02, ranS: 0.2, cyclesPerDay: 0.25 } as const;

type Told = keyof typeof LEAST_SHARE;
const TOLD: readonly Told[] = ['amps', 'cutInKpa', 'cutOutKpa', 'ranS', 'cyclesPerDay'];

export function movedEnough(before: Baseline | undefined, now: Baseline): boolean {
  if (!before) return true;
  const moved = (name: Told): boolean => {
    const told = before.told?.[name] ?? before[name]?.median;
    const normal: Normal | undefined = now[name];
    if (normal === undefined || told === undefined) return normal !== undefined;
    const off = Math.abs(normal.median - told);
    return (
      off > LEAST_SHARE[name] * told && off > (TWO_ERRORS * normal.spread) / Math.sqrt(Math.max(1, normal.n))
    );
  };
  return TOLD.some(moved);
}
