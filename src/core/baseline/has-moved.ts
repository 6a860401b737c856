/**
 * Has a baseline moved so far that it is worth a line? Further than twice the standard error of its
 * median and than a small share of itself, measured from what was told last; else each day would
 * print one.
 */
import type { Baseline, Normal } from './baseline.ts';

/**
 * The standard error of a median is 1.2533 x sigma / sqrt(n) (normal data, large n); two of them
 * leave one in twenty to chance.
 */
const TWO_ERRORS = 2 * 1.2533;
/** Shares of the value: amps are steady, counts a day are not. */
const MIN_CHANGE_RATIO = {
  amps: 0.01,
  cutInKpa: 0.02,
  cutOutKpa: 0.02,
  ranS: 0.2,
  cyclesPerDay: 0.25,
} as const;

type EmittedQuantity = keyof typeof MIN_CHANGE_RATIO;
const EMITTED_QUANTITIES: readonly EmittedQuantity[] = [
  'amps',
  'cutInKpa',
  'cutOutKpa',
  'ranS',
  'cyclesPerDay',
];

export function hasMoved(before: Baseline | undefined, now: Baseline): boolean {
  if (!before) return true;
  const moved = (name: EmittedQuantity): boolean => {
    const lastEmitted = before.lastEmitted?.[name] ?? before[name]?.median;
    const normal: Normal | undefined = now[name];
    if (normal === undefined || lastEmitted === undefined) return normal !== undefined;
    const change = Math.abs(normal.median - lastEmitted);
    return (
      change > MIN_CHANGE_RATIO[name] * lastEmitted &&
      change > (TWO_ERRORS * normal.spread) / Math.sqrt(Math.max(1, normal.n))
    );
  };
  return EMITTED_QUANTITIES.some(moved);
}
