/**
 * A pump that outruns its well: a run begins as ever, and after a while current falls away because the water has come down to the
 * intake; after a rest it is there again. From the runs that broke and those that did not follows how long a run may be, and
 * what rest brings the water back: this well's own numbers, as far as its runs have shown them.
 */
import type { Cycle } from '../cycles/cycle.ts';
import { isFresh } from './facts.ts';
import { sayTime } from './say.ts';
import type { Scene } from './scene.ts';

export interface Outrun {
  /** Runs that broke, of so many known. */
  broke: number;
  runs: number;
  /** The soonest break after a long rest, s: runs longer than this outrun the well. */
  limitS: number;
  /** The shortest rest after which a run lasted as long without breaking, s; absent where none was seen. */
  restS?: number;
  sinceMs: number;
}

/** A rest counts as long where it is at least half of the longest known. */
const LONG_SHARE = 0.5;
/** A line that was lost, or a clamp that slipped off within a run, is no well that gave out. */
const NO_CURRENT = 0.25;
/** A run has shown that the water was back where it lasted this share of the limit. */
const LASTED_SHARE = 0.9;

/** What the last runs show; undefined where none of them broke. */
export function outrun(scene: Scene): Outrun | undefined {
  const runs = scene.pump.cycles.filter((cycle) => isFresh(scene, cycle.startedMs));
  const broken = runs.filter((cycle) => cycle.broke !== undefined && cycle.broke.share > NO_CURRENT);
  if (broken.length === 0) return undefined;
  const longest = Math.max(...broken.map((cycle) => cycle.restedS ?? 0));
  const rested = broken.filter((cycle) => (cycle.restedS ?? 0) >= LONG_SHARE * longest);
  const limitS = Math.min(...rested.map((cycle) => cycle.broke!.atS));
  const restS = restThatHelps(runs, limitS);
  return {
    broke: broken.length,
    runs: runs.length,
    limitS,
    ...(restS !== undefined && { restS }),
    sinceMs: broken[0]!.startedMs,
  };
}

/** The shortest rest after a break whose next run got as far as the limit, whether it broke then or ended well. */
function restThatHelps(runs: readonly Cycle[], limitS: number): number | undefined {
  let shortest: number | undefined;
  for (const [at, cycle] of runs.entries()) {
    if (runs[at - 1]?.broke === undefined || cycle.restedS === undefined) continue;
    const lasted = cycle.broke?.atS ?? cycle.ranS;
    if (lasted >= LASTED_SHARE * limitS && (shortest === undefined || cycle.restedS < shortest))
      shortest = cycle.restedS;
  }
  return shortest;
}

/** "Runs over 12 min outrun the well; a rest of 40 min brings it back." */
export function sayOutrun({ limitS, restS }: Outrun): string {
  const back = restS === undefined ? '' : `; a rest of ${sayTime(restS)} brings it back`;
  return `Runs over ${sayTime(limitS)} outrun the well${back}.`;
}
