/**
 * A well is run again from its last save before a moment: after late packs, and after a crash. What
 * was derived since then is made again; alarms are compared with those already told, so that nobody
 * hears the same twice and hears of what turned out wrong. Whoever holds the fleet reads what is
 * kept, piece by piece, and hands it in.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import type { PackColumn } from '../decode/messages.ts';
import { defaultCardForNode } from '../domain/read-card.ts';
import type { Feed } from '../domain/sources.ts';
import { addColumn } from '../readings/inbox.ts';
import type { Emitted } from '../well/emit.ts';
import { newWell, type WellState } from '../well/engine.ts';
import type { TimedInput } from '../well/input.ts';
import { stopWell } from './advance-well.ts';
import { clearNotWatched } from './alarm-rows.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { knownAlarmKeys, knownToMs, reconcileAlarms } from './rerun-alarms.ts';
import { frontierOf } from './well-frontier.ts';
import { addInput, advancePipeline, newPipeline, type WellPipeline } from './well-pipeline.ts';

/** At most once a minute a well (design): a backlog of thousands of packs costs one run. */
const RERUN_EVERY_MS = MINUTE_MS;

/** When this well is run again, if it is to be; Infinity where not. */
export function rerunDueMs({ rerunFromMs, reranAtMs }: WellPipeline): number {
  return rerunFromMs === undefined ? Number.POSITIVE_INFINITY : reranAtMs + RERUN_EVERY_MS;
}

/** Wells that are to be run again now, and from where: for these, what is kept is wanted. */
export function dueReruns(fleet: Fleet, nowMs: number): { well: string; fromMs: number }[] {
  const due: { well: string; fromMs: number }[] = [];
  for (const pipeline of fleet.pipelines.values())
    if (nowMs >= rerunDueMs(pipeline)) due.push({ well: pipeline.well, fromMs: pipeline.rerunFromMs! });
  return due;
}

/** What is kept of one channel that feeds the well. */
export interface KeptColumn {
  column: Pick<PackColumn, 'times' | 'values' | 'faults'>;
  feed: Pick<Feed, 'code' | 'sinceMs' | 'untilMs'>;
}

export interface Rerun {
  well: string;
  /** As it was saved, and then passed on again. */
  rebuilt: WellPipeline;
  /** The save holds everything before: what follows is made again. */
  sinceMs: number;
  /** How far it is to be passed on again. */
  toMs: number;
  /** Alarms that stood in the save. */
  activeBefore: ReadonlySet<string>;
  emitted: Emitted[];
  /** It cannot be run again. */
  fault?: { error: unknown };
}

/**
 * `inputs` are the acts and news since the save; without a save the well begins as its name alone.
 */
export function beginRerun(
  fleet: Fleet,
  { well, saved, inputs }: { well: string; saved?: SavedWell; inputs: readonly TimedInput[] },
  nowMs: number,
): Rerun {
  const pipeline = fleet.pipelines.get(well)!;
  pipeline.reranAtMs = nowMs;
  const rebuilt = newPipeline(well, saved?.state ?? newWell(defaultCardForNode(well)));
  if (saved) rebuilt.advancedToMs = rebuilt.inbox.drainedToMs = saved.atMs;
  for (const input of inputs) addInput(rebuilt, input);
  return {
    well,
    rebuilt,
    sinceMs: rebuilt.advancedToMs + 1,
    // As far as it had come, though a node that speaks again may be waited for now: what was told
    // is of that time.
    toMs: Math.max(frontierOf(fleet, pipeline, nowMs), pipeline.advancedToMs, knownToMs(fleet, well)),
    activeBefore: knownAlarmKeys(rebuilt),
    emitted: [],
  };
}

export interface SavedWell {
  state: WellState;
  atMs: number;
}

/** What is kept up to `toMs` is complete: the well is passed on as far. */
export function runKept({ rebuilt, emitted }: Rerun, columns: readonly KeptColumn[], toMs: number): void {
  addKept(rebuilt, columns);
  advancePipeline(rebuilt, toMs, (e) => emitted.push(e));
}

/** What lies beyond waits for its turn. */
export function addKept({ inbox }: WellPipeline, columns: readonly KeptColumn[]): void {
  for (const { column, feed } of columns) addColumn(inbox, column, feed, false);
}

/** The well goes on from what the run again made. */
export function finishRerun(fleet: Fleet, rerun: Rerun, nowMs: number, emit: EmitEffect): void {
  const { well, rebuilt, sinceMs, toMs, activeBefore, emitted, fault } = rerun;
  const pipeline = fleet.pipelines.get(well)!;
  if (fault) {
    stopWell(fleet, pipeline, fault.error, nowMs, emit);
    return;
  }
  const { state, inbox, pendingInputs, advancedToMs, dueMs } = rebuilt;
  Object.assign(pipeline, { state, inbox, pendingInputs, advancedToMs, dueMs });
  delete pipeline.rerunFromMs;
  delete pipeline.fault;
  pipeline.unsaved = true;
  emit({ is: 'made-again', well, sinceMs });
  for (const e of emitted) emit({ is: 'emitted', emitted: e });
  const alarms = emitted.map((e) => e.event).filter((event): event is AlarmEvent => event.event === 'alarm');
  reconcileAlarms(fleet, pipeline, alarms, { fromMs: sinceMs, toMs, nowMs, activeBefore }, emit);
  clearNotWatched(fleet, pipeline, nowMs, emit);
  emit({ is: 'rerun-mark', well, fromMs: null });
}
