/**
 * Nothing that comes can change what lies more than the settling time back (contract, section 4):
 * up to there the engine is passed on, once, in order, and what it says is handed out in order.
 */
import type { WellEvent } from '../../shared/api/events.ts';
import { DAY_MS } from '../../shared/units/duration.ts';
import { SETTLE_MS } from '../core/fleet/settling.ts';
import { take } from './apply-effect.ts';
import { dequeueBefore } from './event-queue.ts';
import type { Replay } from './state.ts';

/** Passing on in pieces of ten minutes costs little and keeps a week and ten minutes waiting. */
const CHUNK_MS = 600_000;
/**
 * Having passed a time, the engine may still print a day's line that waited for a run over midnight
 * to end.
 */
const MAX_PRINT_DELAY_MS = DAY_MS;

/** Passes the wells on where another piece has settled. */
export function settle(replay: Replay, emit: (event: WellEvent) => void): void {
  const toMs = replay.nowMs - SETTLE_MS;
  if (toMs < replay.settledMs + CHUNK_MS) return;
  replay.settledMs = toMs;
  take(replay, { is: 'settled', toMs }, replay.nowMs);
  dequeueBefore(replay.eventQueue, toMs - MAX_PRINT_DELAY_MS, emit);
}

/** The recording has ended: all is handed out but the open cycle and day. */
export function finish(replay: Replay, emit: (event: WellEvent) => void): void {
  if (replay.nowMs === Number.NEGATIVE_INFINITY) return;
  take(replay, { is: 'settled', toMs: replay.nowMs }, replay.nowMs);
  // A clock may be a little ahead of ours: what it measured last counts too.
  take(replay, { is: 'settled', toMs: latestMs(replay) }, replay.nowMs);
  dequeueBefore(replay.eventQueue, Number.POSITIVE_INFINITY, emit);
}

function latestMs(replay: Replay): number {
  let latestMs = replay.nowMs;
  for (const { inbox } of replay.pipelines.values()) {
    for (const run of inbox.queues) if (run.n > 0) latestMs = Math.max(latestMs, run.lastMs);
  }
  return latestMs;
}
