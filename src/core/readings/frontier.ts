/**
 * Up to which time a well's readings may be handed on while they still come in: as far as all of
 * its nodes have spoken. A node that is more than 30 s past its turn is not waited for (contract,
 * section 5), nor is one that is only sending what it held back; what they bring later is late, and
 * the well is run again from there.
 */
import { MISSING_PACK_WAIT_MS } from './record-pack.ts';
import type { NodeState } from './node-state.ts';

/** The contract's. */
const WAIT_MS = 30_000;
/** A clock that is believed may be this much behind ours. */
const CLOCK_TOLERANCE_MS = 300_000;

/** How far one node has spoken. */
export interface NodeProgress {
  /** Readings up to this time are whole. */
  completeToMs: number;
  /** When the pack came that brought the newest reading; 0 before the first. */
  lastHeardMs: number;
  /** Usual time from one pack to the next. */
  intervalMs: number;
}

export function nodeProgress(state: NodeState, nowMs: number): NodeProgress {
  const { missingPacks } = state;
  const waits = missingPacks !== undefined && nowMs - missingPacks.sinceMs <= MISSING_PACK_WAIT_MS;
  return {
    completeToMs: waits ? missingPacks.completeToMs : state.latestMs,
    lastHeardMs: state.latestArrivalMs,
    intervalMs: intervalMsOf(state),
  };
}

function intervalMsOf(state: NodeState): number {
  return Math.max(state.packIntervalMs, state.liveness.reportIntervalMs);
}

/**
 * The time up to and including which readings may be handed on; never past `nowMs`. It may go back:
 * the caller keeps the highest.
 */
export function frontierMs(nodes: readonly NodeProgress[], nowMs: number): number {
  let toMs = nowMs;
  for (const { completeToMs, lastHeardMs, intervalMs } of nodes) {
    const waitMs = intervalMs + WAIT_MS;
    const waits =
      lastHeardMs > 0 && nowMs - lastHeardMs <= waitMs && nowMs - completeToMs <= waitMs + CLOCK_TOLERANCE_MS;
    if (waits && completeToMs < toMs) toMs = completeToMs;
  }
  return toMs;
}

/**
 * From when on this node holds no frontier below `targetMs`, if it says nothing more: it is not
 * waited for then, or its missing packs are not. -Infinity where it holds none.
 */
export function releaseMs(state: NodeState, targetMs: number): number {
  const lastHeardMs = state.latestArrivalMs;
  const waitMs = intervalMsOf(state) + WAIT_MS;
  const heldUntil = (completeToMs: number): number =>
    lastHeardMs <= 0 || completeToMs >= targetMs
      ? Number.NEGATIVE_INFINITY
      : Math.min(lastHeardMs, completeToMs + CLOCK_TOLERANCE_MS) + waitMs + 1;
  const { missingPacks } = state;
  if (!missingPacks) return heldUntil(state.latestMs);
  const givenUpMs = missingPacks.sinceMs + MISSING_PACK_WAIT_MS + 1;
  const whileMissingMs = heldUntil(missingPacks.completeToMs);
  return whileMissingMs <= givenUpMs ? whileMissingMs : Math.max(givenUpMs, heldUntil(state.latestMs));
}
