/**
 * A pump that outruns its well: a run begins as ever, and after a while current falls away because
 * the water has come down to the intake; after a rest it is there again. From the runs that broke
 * and those that did not follows how long a run may be, and what rest brings the water back: this
 * well's own numbers, as far as its runs have shown them.
 */
import type { Cycle } from '../../cycles/cycle.ts';
import { isAfterReset } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

export interface Overpumping {
  /** Runs that are known. */
  runs: number;
  /** The soonest break after a long rest, s: runs longer than this outrun the well. */
  limitS: number;
  /**
   * The shortest rest after which a run lasted as long without breaking, s; absent where none was
   * seen.
   */
  restS?: number;
  sinceMs: number;
}

/** A rest counts as long where it is at least half of the longest known. */
const LONG_REST_RATIO = 0.5;
/** A line that was lost, or a clamp that slipped off within a run, is no well that gave out. */
const NO_CURRENT_RATIO = 0.25;
/** A run has shown that the water was back where it lasted this share of the limit. */
const MIN_LASTED_RATIO = 0.9;

/** What the last runs show; undefined where none of them broke. */
export function estimateOverpumping(scene: Scene): Overpumping | undefined {
  const runs = scene.pump.cycles.filter((cycle) => isAfterReset(scene, cycle.startedMs));
  const broken = runs.filter(
    (cycle) => cycle.loadLoss !== undefined && cycle.loadLoss.ratio > NO_CURRENT_RATIO,
  );
  if (broken.length === 0) return undefined;
  const longest = Math.max(...broken.map((cycle) => cycle.restedS ?? 0));
  const rested = broken.filter((cycle) => (cycle.restedS ?? 0) >= LONG_REST_RATIO * longest);
  const limitS = Math.min(...rested.map((cycle) => cycle.loadLoss!.atS));
  const restS = recoveryRestS(runs, limitS);
  return {
    runs: runs.length,
    limitS,
    ...(restS !== undefined && { restS }),
    sinceMs: broken[0]!.startedMs,
  };
}

/**
 * The shortest rest after a break whose next run got as far as the limit, whether it broke then or
 * ended well.
 */
function recoveryRestS(runs: readonly Cycle[], limitS: number): number | undefined {
  let shortest: number | undefined;
  for (const [at, cycle] of runs.entries()) {
    if (runs[at - 1]?.loadLoss === undefined || cycle.restedS === undefined) continue;
    const lasted = cycle.loadLoss?.atS ?? cycle.ranS;
    if (lasted >= MIN_LASTED_RATIO * limitS && (shortest === undefined || cycle.restedS < shortest))
      shortest = cycle.restedS;
  }
  return shortest;
}
