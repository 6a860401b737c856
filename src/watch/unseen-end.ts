/**
 * How much higher a run may have ended than was read. Sprinklers hold a run under cut-out for hours; their valve shuts, and the pump fills the
 * tank to cut-out between two readings. A fill that something cut off was rising all along, and is read as well as any.
 */
import type { Cycle } from '../cycles/cycle.ts';
import { cutInOf, cutOutOf, fillOf, PSI } from './facts.ts';
import type { Scene } from './scene.ts';

/** Longer than so many fills, a run was held under cut-out by use. */
const HELD_FILLS = 1.5;
/** The end is the median of three readings, the last up to one reading old: what pressure does in two is not seen. */
const UNSEEN_READINGS = 2;

/** Ends that may have been so much higher say nothing of where a switch opens. */
const UNSEEN_KPA = 4 * PSI;

export function endIsSeen(scene: Scene, run: Cycle): boolean {
  return unseenKpa(scene, run) <= UNSEEN_KPA;
}

/** kPa; 0 where the run was a fill, or nothing says how long one takes. */
export function unseenKpa(scene: Scene, run: Cycle): number {
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  const fillS = fillOf(scene);
  if (cutIn === undefined || cutOut === undefined || fillS === undefined) return 0;
  if (run.ranS < HELD_FILLS * fillS) return 0;
  return (UNSEEN_READINGS * run.ranS * (cutOut - cutIn)) / (run.readings * fillS);
}
