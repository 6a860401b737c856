/**
 * How much higher a run may have ended than was read. Sprinklers hold a run under cut-out for
 * hours; their valve shuts, and the pump fills the tank to cut-out between two readings. A fill
 * that something cut off was rising all along, and is read as well as any.
 */
import type { Cycle } from '../../cycles/cycle.ts';
import { normalCutInKpa, normalCutOutKpa, normalFillS, KPA_PER_PSI } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/** Longer than so many fills, a run was held under cut-out by use. */
const MAX_FILL_MULTIPLE = 1.5;
/**
 * The end is the median of three readings, the last up to one reading old: what pressure does in
 * two is not seen.
 */
const UNSEEN_READINGS = 2;

/** Ends that may have been so much higher say nothing of where a switch opens. */
const MAX_UNSEEN_KPA = 4 * KPA_PER_PSI;

export function isEndSeen(scene: Scene, run: Cycle): boolean {
  return unseenKpa(scene, run) <= MAX_UNSEEN_KPA;
}

/** kPa; 0 where the run was a fill, or nothing says how long one takes. */
export function unseenKpa(scene: Scene, run: Cycle): number {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  const fillS = normalFillS(scene);
  if (cutIn === undefined || cutOut === undefined || fillS === undefined) return 0;
  if (run.ranS < MAX_FILL_MULTIPLE * fillS) return 0;
  return (UNSEEN_READINGS * run.ranS * (cutOut - cutIn)) / (run.readings * fillS);
}
