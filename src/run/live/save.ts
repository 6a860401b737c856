/** What goes into the commit so that less has to be made again after a crash: books of nodes, and engine state every ten minutes. */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { loadWell, saveWell, type WellState } from '../../engine/engine.ts';
import type { Line } from './line.ts';
import type { LiveState } from './state.ts';

export const SAVE_EVERY_MS = 600_000;

/** Books of nodes are saved at each hello and with the engines. Called last in a turn, so that they hold all of it. */
export function saveNodes(live: LiveState, nowMs: number, all: boolean): void {
  for (const [node, entry] of live.nodes) {
    const due = entry.unsaved && (all || nowMs - entry.savedAtMs >= SAVE_EVERY_MS);
    if (!due && !live.toSave.has(node)) continue;
    entry.unsaved = false;
    entry.savedAtMs = nowMs;
    const { heardMs } = entry.state.hearing;
    live.changes.push({
      change: 'node',
      row: {
        node,
        state: entry.state,
        savedMs: nowMs,
        letIn: entry.letIn,
        ...(entry.hello && { hello: entry.hello }),
        ...(entry.ignored && { ignored: entry.ignored }),
        ...(heardMs > 0 && { lastHeardMs: heardMs }),
      },
    });
  }
  live.toSave.clear();
}

export function saveLine(live: LiveState, line: Line, nowMs: number): void {
  if (!line.unsaved || line.passedMs < 0 || line.fault !== undefined) return;
  line.unsaved = false;
  line.savedAtMs = nowMs;
  live.changes.push({ change: 'snapshot', well: line.well, atMs: line.passedMs, state: pack(line.state) });
}

/** Engine state as it is kept: JSON, deflated. */
export function pack(state: WellState): Uint8Array {
  return deflateRawSync(saveWell(state), { level: 6 });
}

export function unpack(bytes: Uint8Array): WellState {
  return loadWell(inflateRawSync(bytes));
}
