/**
 * How far the water over the pump stands lower than at first, for the watches of a pump that grows weak: of a level sensor the minutes in
 * which runs end, since the level is drawn down by the same then. Kept in a watch's own memo, which a visit empties.
 */
import { median } from '../baseline/robust.ts';
import { lastMinute, listOf } from './facts.ts';
import { tidy } from './say.ts';
import type { Memo, Scene } from './scene.ts';

/** Two days of a house: the level of a well moves with its use by less than these limits ask. */
const FIRST_RUNS = 40;
const LAST_RUNS = 8;

/** Asked at the end of each run. In m, negative where it has risen; undefined without a level, and while the first runs are taken. */
export function levelFall(scene: Scene, memo: Memo): number | undefined {
  const level = lastMinute(scene)?.levelM?.mean;
  if (level === undefined) return undefined;
  const first = listOf(memo, 'levelFirst');
  if (first.length < FIRST_RUNS) {
    memo['levelFirst'] = [...first, tidy(level, 1)];
    return undefined;
  }
  const last = [...listOf(memo, 'levelLast'), tidy(level, 1)].slice(-LAST_RUNS);
  memo['levelLast'] = last;
  return last.length < LAST_RUNS ? undefined : tidy(median(first)! - median(last)!, 1);
}
