/** Time alone: what it brings, and when it brings the next thing. */
import { ackDueMs } from './acks.ts';
import { advanceToFrontier } from './advance-well.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { rerunDueMs } from './rerun.ts';
import { emitDueSaves, saveDueMs } from './saves.ts';

/**
 * Passes on the wells that something came for and those that can go on by time alone. Before
 * `wakeAtMs` there is none of the latter, and no well or node is asked.
 */
export function advanceDueWells(fleet: Fleet, nowMs: number, emit: EmitEffect): void {
  const { dirtyWells, pipelines } = fleet;
  const awake = nowMs >= fleet.wakeAtMs;
  const due = awake
    ? [...pipelines.values()].filter((pipeline) => nowMs >= pipeline.dueMs || dirtyWells.has(pipeline))
    : [...dirtyWells];
  dirtyWells.clear();
  for (const pipeline of due) advanceToFrontier(fleet, pipeline, nowMs, emit);
  if (awake) emitDueSaves(fleet, nowMs, emit);
}

/** The earliest deadline of all nodes and wells; worked out once a turn is over. */
export function nextWakeMs(fleet: Fleet): number {
  // News is made after its time, not at it.
  let wakeMs = fleet.newsDueMs + 1;
  let saveMs = Number.POSITIVE_INFINITY;
  for (const pipeline of fleet.pipelines.values()) {
    wakeMs = Math.min(wakeMs, pipeline.dueMs, rerunDueMs(pipeline));
    saveMs = Math.min(saveMs, saveDueMs(pipeline));
  }
  for (const entry of fleet.nodes.values()) {
    saveMs = Math.min(saveMs, saveDueMs(entry));
    if (fleet.rules.acknowledges) wakeMs = Math.min(wakeMs, ackDueMs(entry));
  }
  return Math.min(wakeMs, Math.max(saveMs, fleet.savesFromMs));
}
