/**
 * Passes a well on as far as its nodes have spoken, and turns what the engine says into changes for
 * the commit. A fault of our own in one well stops that well, says so as an alarm, and leaves the
 * others running.
 */
import { stopPipeline } from '../../core/fleet/fault.ts';
import type { Emitted } from '../../core/well/emit.ts';
import { frontierOf, wellDueMs } from '../../core/fleet/well-frontier.ts';
import { advancePipeline, type WellPipeline } from '../../core/fleet/well-pipeline.ts';
import type { LiveState } from './state.ts';
import { hasOpenRows, syncStates, publishEvent } from './alarm-rows.ts';

export function advanceWell(live: LiveState, pipeline: WellPipeline, nowMs: number): void {
  if (pipeline.fault !== undefined) {
    pipeline.dueMs = Number.POSITIVE_INFINITY;
    return;
  }
  live.counts.advances++;
  const emitted: Emitted[] = [];
  try {
    advancePipeline(pipeline, frontierOf(live, pipeline, nowMs), (e) => emitted.push(e));
  } catch (error) {
    stopWell(live, pipeline, error, nowMs);
    return;
  }
  for (const e of emitted) storeEmitted(live, e, nowMs);
  // What was seen, shelved or off its shelf changes without a line.
  if (hasOpenRows(live, pipeline)) syncStates(live, pipeline);
  pipeline.dueMs = wellDueMs(live, pipeline, nowMs);
}

/** What the engine said, as changes of the store; alarms are told. */
export function storeEmitted(live: LiveState, emitted: Emitted, nowMs: number): void {
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
      publishEvent(live, event, nowMs);
      break;
    default:
      event satisfies never;
  }
}

export function stopWell(live: LiveState, pipeline: WellPipeline, error: unknown, nowMs: number): void {
  pipeline.dueMs = Number.POSITIVE_INFINITY;
  const { sentence, events } = stopPipeline(pipeline, error, nowMs);
  live.options.log('error', sentence);
  for (const event of events) publishEvent(live, event, nowMs);
}
