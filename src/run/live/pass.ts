/**
 * Passes a well on as far as its nodes have spoken, and turns what the engine says into changes for the commit. A fault of our own
 * in one well stops that well, says so as an alarm, and leaves the others running.
 */
import { nodesOf } from '../../card/reads.ts';
import type { Emitted } from '../../engine/emit.ts';
import { frontierMs, voiceOf, type Voice } from '../../readings/frontier.ts';
import { passLine, type Line } from './line.ts';
import type { LiveState } from './state.ts';
import { hasOpenRows, syncStates, tellEvent, tellNotWatched } from './tell.ts';

function voicesOf(live: LiveState, line: Line, nowMs: number): Voice[] {
  const voices: Voice[] = [];
  for (const { node } of nodesOf(line.state.card, nowMs)) {
    const entry = live.nodes.get(node);
    if (entry) voices.push(voiceOf(entry.state, nowMs));
  }
  return voices;
}

/** Up to when this well may be passed on now. */
export function frontierOf(live: LiveState, line: Line, nowMs: number): number {
  return frontierMs(voicesOf(live, line, nowMs), nowMs);
}

export function passLive(live: LiveState, line: Line, nowMs: number): void {
  if (line.fault !== undefined) return;
  const emitted: Emitted[] = [];
  try {
    passLine(line, frontierOf(live, line, nowMs), (e) => emitted.push(e));
  } catch (error) {
    stop(live, line, error, nowMs);
    return;
  }
  for (const e of emitted) keepEmitted(live, e, nowMs);
  // What was seen, shelved or off its shelf changes without a line.
  if (hasOpenRows(live, line)) syncStates(live, line);
}

/** What the engine said, as changes of the store; alarms are told. */
export function keepEmitted(live: LiveState, emitted: Emitted, nowMs: number): void {
  const { event, orderMs, cycle } = emitted;
  switch (event.event) {
    case 'cycle':
      live.changes.push({
        change: 'cycle',
        row: {
          event,
          startedMs: cycle!.startedMs,
          stoppedMs: cycle!.stoppedMs,
          ...(cycle!.shape && { shape: cycle!.shape }),
        },
      });
      break;
    case 'day':
      live.changes.push({ change: 'day', event, endedMs: orderMs });
      break;
    case 'baseline':
      live.changes.push({ change: 'baseline', event, atMs: orderMs });
      break;
    case 'alarm':
      tellEvent(live, event, nowMs);
      break;
    default:
      event satisfies never;
  }
}

export function stop(live: LiveState, line: Line, error: unknown, nowMs: number): void {
  const why = error instanceof Error ? error.message : String(error);
  line.fault = why;
  live.options.log(
    'error',
    `Cannot watch ${line.well}: ${error instanceof Error ? (error.stack ?? why) : why}`,
  );
  tellNotWatched(live, line, why, nowMs);
}
