/**
 * What goes into the commit so that less has to be made again after a crash: books of nodes, and
 * engine state every ten minutes.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { deserializeWell, serializeWell, type WellState } from '../../core/well/engine.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import type { LiveState } from './state.ts';

export const SAVE_EVERY_MS = 600_000;

/**
 * Books of nodes are saved at each hello and with the engines. Called last in a turn, so that they
 * hold all of it.
 */
export function saveNodes(live: LiveState, nowMs: number, all: boolean): void {
  for (const [node, entry] of live.nodes) {
    const due = entry.unsaved && (all || nowMs - entry.savedAtMs >= SAVE_EVERY_MS);
    if (!due && !live.dirtyNodes.has(node)) continue;
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
}

export function saveSnapshot(live: LiveState, pipeline: WellPipeline, nowMs: number): void {
  if (!pipeline.unsaved || pipeline.advancedToMs < 0 || pipeline.fault !== undefined) return;
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
