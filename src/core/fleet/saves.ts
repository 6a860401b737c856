/** What is saved so that less has to be made again after a crash, and when. */
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';

/** State of nodes and of wells' engines. */
const SAVE_EVERY_MS = 600_000;
/** Wells to save at once: packing the state of one takes about 1 ms. */
const MAX_WELL_SAVES = 20;
/**
 * Saves that time alone brings wait for each other this long: ten minutes more or less do not
 * count, and a commit costs more than a save.
 */
const SAVE_INTERVAL_MS = 1000;

/** When this well or node is to be saved, if anything in it is not; Infinity where nothing is. */
export function saveDueMs({
  unsaved,
  savedAtMs,
  fault,
}: {
  unsaved: boolean;
  savedAtMs: number;
  fault?: string;
}): number {
  return unsaved && fault === undefined ? savedAtMs + SAVE_EVERY_MS : Number.POSITIVE_INFINITY;
}

/** Saves that are due now. Whoever takes them says so in `savedAtMs` and `unsaved`. */
export function emitDueSaves(fleet: Fleet, nowMs: number, emit: EmitEffect): void {
  if (nowMs < fleet.savesFromMs) return;
  let saves = 0;
  for (const pipeline of fleet.pipelines.values()) {
    if (saves >= MAX_WELL_SAVES) break;
    if (nowMs < saveDueMs(pipeline)) continue;
    emit({ is: 'save-well', pipeline });
    saves++;
  }
  for (const [node, entry] of fleet.nodes) {
    if (nowMs < saveDueMs(entry)) continue;
    emit({ is: 'node-changed', node });
    saves++;
  }
  if (saves > 0) fleet.savesFromMs = nowMs + SAVE_INTERVAL_MS;
}
