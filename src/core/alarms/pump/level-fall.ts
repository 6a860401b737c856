/**
 * How far the water over the pump stands lower than at first, for the watches of a pump that grows
 * weak: of a level sensor the minutes in which runs end, since the level is drawn down by the same
 * then. Kept in a watch's own memory, which a visit empties.
 */
import { median } from '../../baseline/robust.ts';
import { lastMinute } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';

/** Two days of a house: the level of a well moves with its use by less than these limits ask. */
const FIRST_RUNS = 40;
const LAST_RUNS = 8;

/** The part of a watch's memory that holds levels at the end of its first and its last runs, m. */
export interface LevelMemory {
  levelFirst?: number[];
  levelLast?: number[];
}

/**
 * Asked at the end of each run. In m, negative where it has risen; undefined without a level, and
 * while the first runs are taken.
 */
export function levelFall(scene: Scene, memory: LevelMemory): number | undefined {
  const level = lastMinute(scene)?.levelM?.mean;
  if (level === undefined) return undefined;
  const first = memory.levelFirst ?? [];
  if (first.length < FIRST_RUNS) {
    memory.levelFirst = [...first, roundTo(level, 1)];
    return undefined;
  }
  const last = [...(memory.levelLast ?? []), roundTo(level, 1)].slice(-LAST_RUNS);
  memory.levelLast = last;
  return last.length < LAST_RUNS ? undefined : roundTo(median(first)! - median(last)!, 1);
}
