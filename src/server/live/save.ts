/**
 * What goes into the commit so that less has to be made again after a crash: books of nodes, and
 * engine state every ten minutes.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { deserializeWell, serializeWell, type WellState } from '../../core/well/engine.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import type { LiveState } from './state.ts';

const SAVE_EVERY_MS = 600_000;

/** When this well or node is to be saved, if anything in it is not; Infinity where nothing is. */
export function saveDueMs({ unsaved, savedAtMs, fault }: Saved): number {
  return unsaved && fault === undefined ? savedAtMs + SAVE_EVERY_MS : Number.POSITIVE_INFINITY;
}

interface Saved {
  unsaved: boolean;
  savedAtMs: number;
  fault?: string;
}

/**
 * Books of nodes are saved at each hello and with the engines. Called last in a turn, so that they
 * hold all of it. Returns how many.
 */
export function saveNodes(live: LiveState, nowMs: number, all: boolean): number {
  let saves = 0;
  for (const [node, entry] of live.nodes) {
    const due = all ? entry.unsaved : nowMs >= saveDueMs(entry);
    if (!due && !live.dirtyNodes.has(node)) continue;
    saves++;
    entry.unsaved = false;
    entry.savedAtMs = nowMs;
    const { lastHeardMs } = entry.state.liveness;
    live.changes.push({
      change: 'node',
      row: {
        node,
        state: entry.state,
        savedMs: nowMs,
        approved: entry.approved,
        ...(entry.hello && { hello: entry.hello }),
        ...(entry.ignored && { ignored: entry.ignored }),
        ...(lastHeardMs > 0 && { lastHeardMs: lastHeardMs }),
      },
    });
  }
  live.dirtyNodes.clear();
  return saves;
}

export function saveSnapshot(live: LiveState, pipeline: WellPipeline, nowMs: number): void {
  if (!pipeline.unsaved || pipeline.fault !== undefined) return;
  pipeline.unsaved = false;
  pipeline.savedAtMs = nowMs;
  live.changes.push({
    change: 'snapshot',
    well: pipeline.well,
    atMs: pipeline.advancedToMs,
    state: serializeState(pipeline.state),
  });
}

/** Engine state as it is kept: JSON, deflated. */
export function serializeState(state: WellState): Uint8Array {
  return deflateRawSync(serializeWell(state), { level: 6 });
}

export function deserializeState(bytes: Uint8Array): WellState {
  return deserializeWell(inflateRawSync(bytes));
}
