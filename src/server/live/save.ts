/**
 * State of nodes and of engines as it goes into the commit; when is said by
 * src/core/fleet/saves.ts.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { deserializeWell, serializeWell, type WellState } from '../../core/well/engine.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { storedIgnored } from './ignored-names.ts';
import type { LiveState } from './state.ts';

/** Called last in a turn, so that what is saved of the nodes holds all of it. */
export function saveNodes(live: LiveState, nowMs: number): void {
  for (const node of live.dirtyNodes) {
    const entry = live.nodes.get(node);
    if (!entry) continue;
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
        ...(entry.ignored && { ignored: storedIgnored(entry.ignored) }),
        ...(lastHeardMs > 0 && { lastHeardMs: lastHeardMs }),
      },
    });
  }
  live.dirtyNodes.clear();
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
