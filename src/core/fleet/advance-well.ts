/**
 * Passes a well on, and says what its engine says. A fault of our own in one well stops that well,
 * is said as an alarm of it, and leaves the others running.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { raiseExternally } from '../alarms/lifecycle/alarms.ts';
import { notWatchedEvaluation } from '../alarms/sensing/not-watched.ts';
import type { Emitted } from '../well/emit.ts';
import { hasOpenRows, publishEvent, syncStates } from './alarm-rows.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { frontierOf, wellDueMs } from './well-frontier.ts';
import { advancePipeline, type WellPipeline } from './well-pipeline.ts';

/** Passes a well on as far as its nodes have spoken. */
export function advanceToFrontier(
  fleet: Fleet,
  pipeline: WellPipeline,
  nowMs: number,
  emit: EmitEffect,
): void {
  advanceWell(fleet, pipeline, { toMs: frontierOf(fleet, pipeline, nowMs), nowMs }, emit);
  pipeline.dueMs = wellDueMs(fleet, pipeline, nowMs);
  emit({ is: 'advanced', well: pipeline.well });
}

export function advanceWell(
  fleet: Fleet,
  pipeline: WellPipeline,
  { toMs, nowMs }: { toMs: number; nowMs: number },
  emit: EmitEffect,
): void {
  if (pipeline.fault !== undefined) return;
  const emitted: Emitted[] = [];
  let fault: { error: unknown } | undefined;
  try {
    advancePipeline(pipeline, toMs, (e) => emitted.push(e));
  } catch (error) {
    fault = { error };
  }
  for (const e of emitted) publishEmitted(fleet, e, nowMs, emit);
  if (fault) stopWell(fleet, pipeline, fault.error, nowMs, emit);
  // What was seen, shelved or off its shelf changes without a line.
  else if (hasOpenRows(fleet, pipeline)) syncStates(fleet, pipeline, emit);
}

/** A line of an engine; one about an alarm finds its row. */
function publishEmitted(fleet: Fleet, emitted: Emitted, nowMs: number, emit: EmitEffect): void {
  emit({ is: 'emitted', emitted });
  if (emitted.event.event === 'alarm') publishEvent(fleet, emitted.event, nowMs, emit);
}

export function stopWell(
  fleet: Fleet,
  pipeline: WellPipeline,
  error: unknown,
  nowMs: number,
  emit: EmitEffect,
): void {
  const { well, state } = pipeline;
  const why = error instanceof Error ? error.message : String(error);
  const trace = error instanceof Error ? (error.stack ?? why) : why;
  pipeline.fault = why;
  pipeline.dueMs = Number.POSITIVE_INFINITY;
  emit({ is: 'fault', why: { reason: 'well-stopped', figures: { well, trace } } });
  // A recording has the time of its readings alone, in whatever pieces it is run.
  const atMs = fleet.rules.runsOnce ? Math.max(state.nowMs, 0) : nowMs;
  const events: AlarmEvent[] = [];
  state.alarms.well = well;
  raiseExternally(state.alarms, 'not-watched', notWatchedEvaluation(atMs, why), atMs, (event) =>
    events.push(event),
  );
  for (const event of events) publishEmitted(fleet, { event, orderMs: atMs }, nowMs, emit);
}
