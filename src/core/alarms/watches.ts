/**
 * All watches, in the order in which they are asked: the catalogue's (shared/alarms/catalogue.ts).
 * `site-silent` and `not-watched` are not here: no well can find them (./sensing/site-silent.ts,
 * ./sensing/not-watched.ts). What they find is weighed again by all that is known beside it
 * (./reweigh-by-clues.ts).
 */
import type { Evaluation } from './evaluation.ts';
import { reweighByClues } from './reweigh-by-clues.ts';
import type { Scene, Watch } from './scene.ts';
import { WATCH_OF } from './watch-index.ts';

/** News of a node says nothing of the pump, nor the pump of the node. */
export const WATCHES: readonly Watch[] = Object.values(WATCH_OF).map((watch) => ({
  ...watch,
  evaluate: (scene, memory) => evaluateWithClues(watch, scene, memory),
}));

function evaluateWithClues(watch: Watch, scene: Scene, memory: object): Evaluation {
  const evaluation = watch.evaluate(scene, memory);
  return evaluation.is !== 'active' || watch.scope === 'node'
    ? evaluation
    : reweighByClues(watch.alarm, evaluation, scene);
}
