/**
 * How long fills take beside those first learned. Use only lengthens a fill, and seldom all of them
 * through a day and a night, so the quickest of several is nearest to the pump's own work: where
 * even that one takes longer at the same pressures, less water comes, whatever the current says. A
 * pump with worn rings, or with a hole above it, moves as much water as ever and draws as much.
 */
import type { Cycle } from '../../cycles/cycle.ts';
import { isCompleteRun, normalCutInKpa, normalCutOutKpa, recentCycles } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/** Fills over a band as wide as it was, within this, are compared. */
const BAND_TOLERANCE = 0.1;

/** The last `count` fills over the band as learned, newest last. */
export function comparableFills(scene: Scene, count: number): Cycle[] {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (scene.pump.card.control !== 'pressure-switch' || cutIn === undefined || cutOut === undefined) return [];
  return recentCycles(
    scene,
    count,
    (cycle) =>
      isCompleteRun(cycle) &&
      cycle.cutInKpa !== undefined &&
      cycle.cutOutKpa !== undefined &&
      Math.abs((cycle.cutOutKpa - cycle.cutInKpa) / (cutOut - cutIn) - 1) < BAND_TOLERANCE,
  );
}

/**
 * To how many seconds the length of a fill is known: to one reading, where those come seldom. By
 * exception few come too, and the stop is read as it happens.
 */
export function fillErrorS(fill: Cycle): number {
  return fill.flags.includes('coarse') ? fill.ranS / Math.max(1, fill.readings) : 0;
}

/**
 * The quickest of these fills against the quickest that were first learned, and by how much of that
 * the readings leave it open; undefined while nothing is learned.
 */
export function quickestFill(
  scene: Scene,
  fills: readonly Cycle[],
): { ratio: number; error: number } | undefined {
  const { pinned, baseline } = scene.pump;
  const normalS = pinned?.ranMinS ?? baseline?.ranMinS ?? pinned?.ranLowS?.median;
  if (normalS === undefined || normalS <= 0 || fills.length === 0) return undefined;
  const quickest = fills.reduce((best, fill) => (fill.ranS < best.ranS ? fill : best));
  return {
    ratio: quickest.ranS / normalS,
    error: fillErrorS(quickest) / normalS,
  };
}
