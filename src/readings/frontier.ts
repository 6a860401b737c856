/**
 * Up to which time a well's readings may be handed on while they still come in: as far as all of its nodes have spoken. A node that is more
 * than 30 s past its turn is not waited for (contract, section 5), nor is one that is only sending what it held back; what
 * they bring later is late, and the well is run again from there.
 */
import { HOLE_WAIT_MS } from './account.ts';
import type { NodeState } from './node-state.ts';

/** The contract's. */
const WAIT_MS = 30_000;
/** A clock that is believed may be this much behind ours. */
const CLOCK_MS = 300_000;

/** How far one node has spoken. */
export interface Voice {
  /** Readings up to this time are whole. */
  wholeToMs: number;
  /** When the pack came that brought the newest reading; 0 before the first. */
  heardMs: number;
  /** Usual time from one pack to the next. */
  everyMs: number;
}

export function voiceOf(state: NodeState, nowMs: number): Voice {
  const { hole } = state;
  const waits = hole !== undefined && nowMs - hole.sinceMs <= HOLE_WAIT_MS;
  return {
    wholeToMs: waits ? hole.wholeToMs : state.latestMs,
    heardMs: state.latestArrivalMs,
    everyMs: Math.max(state.packEveryMs, state.hearing.everyMs),
  };
}

/** The time up to and including which readings may be handed on; never past `nowMs`. It may go back: the caller keeps the highest. */
export function frontierMs(voices: readonly Voice[], nowMs: number): number {
  let toMs = nowMs;
  for (const { wholeToMs, heardMs, everyMs } of voices) {
    const waitMs = everyMs + WAIT_MS;
    const waits = heardMs > 0 && nowMs - heardMs <= waitMs && nowMs - wholeToMs <= waitMs + CLOCK_MS;
    if (waits && wholeToMs < toMs) toMs = wholeToMs;
  }
  return toMs;
}

/** When the frontier moves by itself, because a node is waited for no longer; Infinity where it won't. */
export function frontierDueMs(voices: readonly Voice[], nowMs: number): number {
  let dueMs = Number.POSITIVE_INFINITY;
  for (const { heardMs, everyMs } of voices) {
    const untilMs = heardMs + everyMs + WAIT_MS + 1;
    if (heardMs > 0 && untilMs > nowMs && untilMs < dueMs) dueMs = untilMs;
  }
  return dueMs;
}
