/**
 * Nothing that comes can change what lies more than the settling time back (contract, section 4):
 * up to there the engine is passed on, once, in order, and what it says is handed out in order.
 */
import type { WellEvent } from '../../shared/api/events.ts';
import { DAY_MS } from '../../shared/units/duration.ts';
import { advanceWell } from '../core/fleet/advance-well.ts';
import type { FleetEffect } from '../core/fleet/effects.ts';
import { dispatchNews } from '../core/fleet/node-news.ts';
import { SETTLE_MS } from '../core/fleet/settling.ts';
import { enqueue, dequeueBefore } from './event-queue.ts';
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
  advanceAll(replay, toMs);
  dequeueBefore(replay.eventQueue, toMs - MAX_PRINT_DELAY_MS, emit);
}

/** The recording has ended: all is handed out but the open cycle and day. */
export function finish(replay: Replay, emit: (event: WellEvent) => void): void {
  if (replay.nowMs === Number.NEGATIVE_INFINITY) return;
  tellNews(replay, replay.nowMs);
  advanceAll(replay, replay.nowMs);
  // A clock may be a little ahead of ours: what it measured last counts too.
  advanceAll(replay, latestMs(replay));
  dequeueBefore(replay.eventQueue, Number.POSITIVE_INFINITY, emit);
}

/**
 * Time of arrival goes on to `toMs`: news finds its wells, and what a site says stands among the
 * lines.
 */
export function tellNews(replay: Replay, toMs: number): void {
  dispatchNews(replay, toMs, (effect) => applyEffect(replay, effect));
}

function latestMs(replay: Replay): number {
  let latestMs = replay.nowMs;
  for (const { inbox } of replay.pipelines.values()) {
    for (const run of inbox.queues) if (run.n > 0) latestMs = Math.max(latestMs, run.lastMs);
  }
  return latestMs;
}

function advanceAll(replay: Replay, toMs: number): void {
  for (const pipeline of replay.pipelines.values())
    advanceWell(replay, pipeline, { toMs, nowMs: toMs }, (effect) => applyEffect(replay, effect));
}

/** What wells and sites say becomes lines; of the rest nothing is kept. */
function applyEffect(replay: Replay, effect: FleetEffect): void {
  if (effect.is === 'emitted') enqueue(replay.eventQueue, effect.emitted.event, effect.emitted.orderMs);
  else if (effect.is === 'site-alarm') enqueue(replay.eventQueue, effect.event, effect.atMs);
  else if (effect.is === 'fault') replay.faults.push(effect.sentence);
}
