/**
 * Runs a well again from the kept readings, from its last save before a moment: after late packs,
 * and after a crash. What was derived since then is made again; alarms are compared with those
 * already told, so that nobody hears the same twice and hears of what turned out wrong.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { readAct } from '../../core/domain/read-act.ts';
import { defaultCardForNode } from '../../core/domain/read-card.ts';
import { formatTime, type Emitted } from '../../core/well/emit.ts';
import { newWell } from '../../core/well/engine.ts';
import type { NodeNews } from '../../core/well/input.ts';
import { sourcesOfWell } from '../../core/fleet/routing.ts';
import { frontierOf } from '../../core/fleet/well-frontier.ts';
import { addColumn } from '../../core/readings/inbox.ts';
import { START_CODE_OFFSET, CLOCK_STEP_BIT } from '../../core/readings/segment.ts';
import type { ActRow, Series } from '../../store/store.ts';
import { addInput, newPipeline, advancePipeline, type WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { renameSavedNews } from './old-names.ts';
import { stopWell } from '../../core/fleet/advance-well.ts';
import { clearNotWatched } from '../../core/fleet/alarm-rows.ts';
import { knownAlarmKeys, knownToMs, reconcileAlarms } from '../../core/fleet/rerun-alarms.ts';
import type { EmitEffect } from '../../core/fleet/effects.ts';
import { applyEffect } from './apply-effect.ts';
import { deserializeState } from './save.ts';
import type { LiveState } from './state.ts';

/** Read and passed in pieces, so that a long stretch takes little memory. */
const CHUNK_MS = 6 * HOUR_MS;

/**
 * Runs `pipeline` again from before `fromMs` to its frontier, in place. Reads only what is
 * committed: called before a turn's messages.
 */
export async function rerun(
  live: LiveState,
  pipeline: WellPipeline,
  fromMs: number,
  nowMs: number,
): Promise<void> {
  const emit: EmitEffect = (effect) => applyEffect(live, effect, { nowMs });
  live.counts.reruns++;
  pipeline.reranAtMs = nowMs;
  const rebuilt = await restorePipeline(live, pipeline.well, fromMs);
  // The saved state holds everything up to and including its time: what follows is made again.
  const sinceMs = rebuilt.advancedToMs + 1;
  const activeBefore = knownAlarmKeys(rebuilt);
  const events: Emitted[] = [];
  // As far as it had come, though a node that speaks again may be waited for now: what was told is
  // of that time.
  const toMs = Math.max(
    frontierOf(live, pipeline, nowMs),
    pipeline.advancedToMs,
    knownToMs(live, pipeline.well),
  );
  try {
    await runStored(live, rebuilt, toMs, (e) => events.push(e));
  } catch (error) {
    stopWell(live, pipeline, error, nowMs, emit);
    return;
  }
  const { state, inbox, pendingInputs, advancedToMs, dueMs } = rebuilt;
  Object.assign(pipeline, { state, inbox, pendingInputs, advancedToMs, dueMs });
  delete pipeline.rerunFromMs;
  pipeline.unsaved = true;
  live.changes.push({ change: 'delete-derived', well: pipeline.well, fromMs: sinceMs });
  for (const emitted of events) emit({ is: 'emitted', emitted });
  const alarms = events.map((e) => e.event).filter((event): event is AlarmEvent => event.event === 'alarm');
  reconcileAlarms(live, pipeline, alarms, { fromMs: sinceMs, toMs, nowMs, activeBefore }, emit);
  if (pipeline.fault !== undefined) delete pipeline.fault;
  clearNotWatched(live, pipeline, nowMs, emit);
  live.changes.push({ change: 'rerun-mark', well: pipeline.well, fromMs: null });
}

/** The well as it was saved last before `fromMs`, with its acts and news since then waiting. */
async function restorePipeline(live: LiveState, well: string, fromMs: number): Promise<WellPipeline> {
  const pipeline =
    (await restoreSnapshot(live, well, fromMs)) ?? newPipeline(well, newWell(defaultCardForNode(well)));
  await addStoredInputs(live, pipeline);
  return pipeline;
}

/**
 * A save that can't be read, by damage or because it is of an older version, is passed over: the
 * readings make it again.
 */
async function restoreSnapshot(
  live: LiveState,
  well: string,
  fromMs: number,
): Promise<WellPipeline | undefined> {
  for (let beforeMs = fromMs - 1; ;) {
    const saved = await live.options.store.snapshot(well, beforeMs);
    if (!saved) return undefined;
    try {
      const pipeline = newPipeline(well, deserializeState(saved.state));
      pipeline.advancedToMs = saved.atMs;
      pipeline.inbox.drainedToMs = saved.atMs;
      return pipeline;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      live.options.log('warn', `Cannot use what was saved of ${well} at ${formatTime(saved.atMs)}: ${why}`);
      beforeMs = saved.atMs - 1;
    }
  }
}

/** Acts and news after the save, as they were kept. */
async function addStoredInputs(live: LiveState, pipeline: WellPipeline): Promise<void> {
  const { store } = live.options;
  const fromMs = pipeline.advancedToMs + 1;
  for (const row of await store.acts({ well: pipeline.well, fromMs })) {
    if (!appliesTo(live, pipeline.well, row)) continue;
    const read = readAct(row.body);
    if ('act' in read)
      addInput(pipeline, { atMs: row.atMs, act: read.act, ...(row.by !== undefined && { by: row.by }) });
    else
      live.options.log('warn', `Cannot use the act of ${new Date(row.atMs).toISOString()}: ${read.problem}`);
  }
  for (const { atMs, body } of await store.news(pipeline.well, fromMs)) {
    renameSavedNews(body);
    addInput(pipeline, { atMs, node: body as NodeNews });
  }
}

/**
 * An act that names no well is for all, but for a calibration: that is for those which read from
 * its node.
 */
function appliesTo(live: LiveState, well: string, act: ActRow): boolean {
  return act.kind !== 'calibrated' || sourcesOfWell(live, well).some(({ node }) => node === act.node);
}

async function runStored(
  live: LiveState,
  pipeline: WellPipeline,
  toMs: number,
  emit: (e: Emitted) => void,
): Promise<void> {
  const begin = await firstReadingMs(live, pipeline);
  if (begin > toMs) advancePipeline(pipeline, toMs, emit);
  for (let fromMs = begin; fromMs <= toMs; fromMs += CHUNK_MS) {
    const untilMs = Math.min(fromMs + CHUNK_MS, toMs + 1);
    await offerStored(live, pipeline, fromMs, untilMs);
    advancePipeline(pipeline, untilMs - 1, emit);
  }
  // What lies beyond the frontier waits for its turn, as it did before.
  await offerStored(live, pipeline, Math.max(begin, toMs + 1), Number.MAX_SAFE_INTEGER);
}

/**
 * Where to begin reading: after the save; before there is one, which is within minutes of the first
 * pack, at the first reading.
 */
async function firstReadingMs(live: LiveState, pipeline: WellPipeline): Promise<number> {
  if (pipeline.advancedToMs >= 0) return pipeline.advancedToMs + 1;
  let first = Number.POSITIVE_INFINITY;
  for (const { node, channel, feed } of sourcesOfWell(live, pipeline.well)) {
    const series = await live.options.store.readings(
      node,
      channel,
      Math.max(0, feed.sinceMs),
      finiteUntilMs(feed.untilMs),
    );
    if (series.n > 0) first = Math.min(first, series.timeMs[0]!);
  }
  return first;
}

const finiteUntilMs = (untilMs: number): number => Math.min(untilMs, Number.MAX_SAFE_INTEGER);

/** Offers what was kept of [fromMs, untilMs), with the marks of clocks that stepped. */
async function offerStored(
  live: LiveState,
  pipeline: WellPipeline,
  fromMs: number,
  untilMs: number,
): Promise<void> {
  const { store } = live.options;
  const steps = new Map<string, Set<number>>();
  for (const { node, channel, feed } of sourcesOfWell(live, pipeline.well)) {
    const from = Math.max(fromMs, feed.sinceMs);
    const until = Math.min(untilMs, finiteUntilMs(feed.untilMs));
    if (until <= from) continue;
    const clockStepTimes = steps.get(node) ?? new Set(await store.clockSteps(node, fromMs, untilMs));
    steps.set(node, clockStepTimes);
    offerSeries(pipeline, await store.readings(node, channel, from, until), feed, clockStepTimes);
    if ((feed.code & 15) >= 3) continue;
    offerSeries(
      pipeline,
      await store.readings(node, `start:${channel}`, from, until),
      { ...feed, code: feed.code + START_CODE_OFFSET },
      clockStepTimes,
    );
  }
}

function offerSeries(
  pipeline: WellPipeline,
  series: Series,
  feed: { code: number; sinceMs: number; untilMs: number },
  clockStepTimes: ReadonlySet<number>,
): void {
  if (series.n === 0) return;
  const times = series.timeMs.subarray(0, series.n);
  const faults = series.fault.subarray(0, series.n);
  const marked = clockStepTimes.size > 0 && times.some((tMs) => clockStepTimes.has(tMs));
  addColumn(
    pipeline.inbox,
    {
      times,
      values: series.value.subarray(0, series.n),
      faults: marked
        ? faults.map((fault, i) => (clockStepTimes.has(times[i]!) ? fault | CLOCK_STEP_BIT : fault))
        : faults,
    },
    feed,
    false,
  );
}
