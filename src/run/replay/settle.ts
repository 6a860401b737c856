/**
 * Nothing that comes can change what lies more than the settling time back (contract, section 4): up to there the engine is passed on,
 * once, in order, and what it says is handed out in order.
 */
import type { AlarmEvent, WellEvent } from '../../../shared/api/events.ts';
import type { Emit } from '../../engine/emit.ts';
import { passLine, type Line } from '../live/line.ts';
import { notWatchedFinding } from '../../watch/not-watched.ts';
import { passNews } from './news.ts';
import { addLine, takeLines } from './order.ts';
import type { Replay } from './state.ts';

const DAY_MS = 86_400_000;
export const SETTLE_MS = 7 * DAY_MS;
/** Passing on in pieces of ten minutes costs little and keeps a week and ten minutes waiting. */
const PIECE_MS = 600_000;
/** Having passed a time, the engine may still print a day's line that waited for a run over midnight to end. */
const PRINTED_WITHIN_MS = DAY_MS;

/** Passes the wells on where another piece has settled. */
export function settle(replay: Replay, say: (event: WellEvent) => void): void {
  const toMs = replay.nowMs - SETTLE_MS;
  if (toMs < replay.settledMs + PIECE_MS) return;
  replay.settledMs = toMs;
  passAll(replay, toMs);
  takeLines(replay.order, toMs - PRINTED_WITHIN_MS, say);
}

/** The recording has ended: all is handed out but the open cycle and day. */
export function finish(replay: Replay, say: (event: WellEvent) => void): void {
  if (replay.nowMs === Number.NEGATIVE_INFINITY) return;
  passNews(replay, replay.nowMs);
  passAll(replay, replay.nowMs);
  // A clock may be a little ahead of ours: what it measured last counts too.
  passAll(replay, latestMs(replay));
  takeLines(replay.order, Number.POSITIVE_INFINITY, say);
}

function latestMs(replay: Replay): number {
  let latestMs = replay.nowMs;
  for (const { inbox } of replay.lines.values()) {
    for (const run of inbox.runs) if (run.n > 0) latestMs = Math.max(latestMs, run.lastMs);
  }
  return latestMs;
}

function passAll(replay: Replay, toMs: number): void {
  const emit: Emit = ({ event, orderMs }) => addLine(replay.order, event, orderMs);
  for (const line of replay.lines.values()) {
    if (line.fault !== undefined) continue;
    try {
      passLine(line, toMs, emit);
    } catch (error) {
      stop(replay, line, error);
    }
  }
}

/** A fault of our own stops one well, says so, and leaves the others running. */
function stop(replay: Replay, line: Line, error: unknown): void {
  line.fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
  replay.faults.push(`Cannot watch ${line.well}: ${line.fault}`);
  const atMs = Math.max(line.state.nowMs, 0);
  const { priority, why, evidence, causes } = notWatchedFinding(
    atMs,
    error instanceof Error ? error.message : String(error),
  );
  const event: AlarmEvent = {
    event: 'alarm',
    well: line.well,
    alarm: 'not-watched',
    state: 'raised',
    at: new Date(atMs).toISOString(),
    since: new Date(atMs).toISOString(),
    ...(priority && { priority }),
    why,
    evidence,
    causes,
  };
  addLine(replay.order, event, atMs);
}
