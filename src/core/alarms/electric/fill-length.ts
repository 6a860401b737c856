/**
 * How long fills take now against what was first learnt: over 1, less is delivered; under 1, more.
 * Only behind a plain switch is the length of a fill the pump's own.
 */
import { HOUR_MS } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { Scene } from '../scene.ts';

export function normalSwitchFillS({ pump }: Scene): number | undefined {
  return pump.card.control === 'pressure-switch' ? pump.pinned?.ranLowS?.median : undefined;
}

/** Of the shorter half of the runs, which has the fills without a draw. */
export function fillLengthRatio(scene: Scene, runs: readonly Cycle[]): number | undefined {
  const usualS = normalSwitchFillS(scene);
  if (usualS === undefined || usualS <= 0 || runs.length === 0) return undefined;
  const sorted = runs.map((cycle) => cycle.ranS).sort((a, b) => a - b);
  return median(sorted.slice(0, Math.ceil(sorted.length / 2)))! / usualS;
}

/** The last runs that a shift of the current is of: the older ones among them drew as ever. */
export const SHIFT_WINDOW_RUNS = 20;

/** A generator stands in for the grid for two days or three (common practice, no source). */
export const MAX_GENERATOR_MS = 72 * HOUR_MS;
