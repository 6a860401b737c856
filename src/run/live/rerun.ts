/**
 * Runs a well again from the kept readings, from its last save before a moment: after late packs, and after a crash. What was derived
 * since then is made again; alarms are compared with those already told, so that nobody hears the same twice and hears of what
 * turned out wrong.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { readAct } from '../../card/read-act.ts';
import { cardOfNode } from '../../card/read-card.ts';
import { printTime, type Emitted } from '../../engine/emit.ts';
import { newWell } from '../../engine/engine.ts';
import type { NodeNews } from '../../engine/input.ts';
import { offer } from '../../readings/merge.ts';
import { START_PLACE, STEP_BIT } from '../../readings/stretch.ts';
import type { ActRow, Series } from '../../store/store.ts';
import { addInput, newLine, passLine, type Line } from './line.ts';
import { frontierOf, keepEmitted, stop } from './pass.ts';
import { unpack } from './save.ts';
import { sourcesOfWell, type LiveState } from './state.ts';
import { tellAgain, tellWatchedAgain, toldKeys, toldToMs } from './tell.ts';

/** At most once a minute a well (design): a backlog of thousands of packs costs one run. */
export const RERUN_EVERY_MS = 60_000;
/** Read and passed in pieces, so that a long stretch takes little memory. */
const PIECE_MS = 6 * 3_600_000;

/** Runs `line` again from before `fromMs` to its frontier, in place. Reads only what is committed: called before a turn's messages. */
export function rerun(live: LiveState, line: Line, fromMs: number, nowMs: number): void {
  live.counts.reruns++;
  line.reranAtMs = nowMs;
  const again = savedLine(live, line.well, fromMs);
  // The saved state holds everything up to and including its time: what follows is made again.
  const sinceMs = again.passedMs + 1;
  const stood = toldKeys(again);
  const events: Emitted[] = [];
  // As far as it had come, though a node that speaks again may be waited for now: what was told is of that time.
  const toMs = Math.max(frontierOf(live, line, nowMs), line.passedMs, toldToMs(live, line.well));
  try {
    runKept(live, again, toMs, (e) => events.push(e));
  } catch (error) {
    stop(live, line, error, nowMs);
    return;
  }
  const { state, inbox, waiting, passedMs } = again;
  Object.assign(line, { state, inbox, waiting, passedMs });
  delete line.rerunFromMs;
  line.unsaved = true;
  live.changes.push({ change: 'forget-derived', well: line.well, fromMs: sinceMs });
  for (const e of events) if (e.event.event !== 'alarm') keepEmitted(live, e, nowMs);
  const alarms = events.map((e) => e.event).filter((event): event is AlarmEvent => event.event === 'alarm');
  tellAgain(live, line, alarms, { fromMs: sinceMs, toMs, nowMs, stood });
  if (line.fault !== undefined) delete line.fault;
  tellWatchedAgain(live, line, nowMs);
  live.changes.push({ change: 'rerun-mark', well: line.well, fromMs: null });
}

/** The well as it was saved last before `fromMs`, with its acts and news since then waiting. */
function savedLine(live: LiveState, well: string, fromMs: number): Line {
  const line = lastSaved(live, well, fromMs) ?? newLine(well, newWell(cardOfNode(well)));
  addKeptInputs(live, line);
  return line;
}

/** A save that can't be read, by damage or because it is of an older version, is passed over: the readings make it again. */
function lastSaved(live: LiveState, well: string, fromMs: number): Line | undefined {
  for (let beforeMs = fromMs - 1; ;) {
    const saved = live.options.store.snapshot(well, beforeMs);
    if (!saved) return undefined;
    try {
      const line = newLine(well, unpack(saved.state));
      line.passedMs = saved.atMs;
      line.inbox.drainedToMs = saved.atMs;
      return line;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      live.options.log('warn', `Cannot use what was saved of ${well} at ${printTime(saved.atMs)}: ${why}`);
      beforeMs = saved.atMs - 1;
    }
  }
}

/** Acts and news after the save, as they were kept. */
function addKeptInputs(live: LiveState, line: Line): void {
  const { store } = live.options;
  const fromMs = line.passedMs + 1;
  for (const row of store.acts({ well: line.well, fromMs })) {
    if (!concerns(live, line.well, row)) continue;
    const read = readAct(row.body);
    if ('act' in read)
      addInput(line, { atMs: row.atMs, act: read.act, ...(row.by !== undefined && { by: row.by }) });
    else
      live.options.log('warn', `Cannot use the act of ${new Date(row.atMs).toISOString()}: ${read.problem}`);
  }
  for (const { atMs, body } of store.news(line.well, fromMs))
    addInput(line, { atMs, node: body as NodeNews });
}

/** An act that names no well is for all, but for a calibration: that is for those which read from its node. */
function concerns(live: LiveState, well: string, act: ActRow): boolean {
  return act.kind !== 'calibrated' || sourcesOfWell(live, well).some(({ node }) => node === act.node);
}

function runKept(live: LiveState, line: Line, toMs: number, emit: (e: Emitted) => void): void {
  const begin = firstReadingMs(live, line);
  if (begin > toMs) passLine(line, toMs, emit);
  for (let fromMs = begin; fromMs <= toMs; fromMs += PIECE_MS) {
    const untilMs = Math.min(fromMs + PIECE_MS, toMs + 1);
    offerKept(live, line, fromMs, untilMs);
    passLine(line, untilMs - 1, emit);
  }
  // What lies beyond the frontier waits for its turn, as it did before.
  offerKept(live, line, Math.max(begin, toMs + 1), Number.MAX_SAFE_INTEGER);
}

/** Where to begin reading: after the save; before there is one, which is within minutes of the first pack, at the first reading. */
function firstReadingMs(live: LiveState, line: Line): number {
  if (line.passedMs >= 0) return line.passedMs + 1;
  let first = Number.POSITIVE_INFINITY;
  for (const { node, channel, feed } of sourcesOfWell(live, line.well)) {
    const series = live.options.store.readings(
      node,
      channel,
      Math.max(0, feed.sinceMs),
      lastOf(feed.untilMs),
    );
    if (series.n > 0) first = Math.min(first, series.timeMs[0]!);
  }
  return first;
}

const lastOf = (untilMs: number): number => Math.min(untilMs, Number.MAX_SAFE_INTEGER);

/** Offers what was kept of [fromMs, untilMs), with the marks of clocks that stepped. */
function offerKept(live: LiveState, line: Line, fromMs: number, untilMs: number): void {
  const { store } = live.options;
  const steps = new Map<string, Set<number>>();
  for (const { node, channel, feed } of sourcesOfWell(live, line.well)) {
    const from = Math.max(fromMs, feed.sinceMs);
    const until = Math.min(untilMs, lastOf(feed.untilMs));
    if (until <= from) continue;
    const marks = steps.get(node) ?? new Set(store.clockSteps(node, fromMs, untilMs));
    steps.set(node, marks);
    give(line, store.readings(node, channel, from, until), feed, marks);
    if ((feed.code & 15) >= 3) continue;
    give(
      line,
      store.readings(node, `start:${channel}`, from, until),
      { ...feed, code: feed.code + START_PLACE },
      marks,
    );
  }
}

function give(
  line: Line,
  series: Series,
  feed: { code: number; sinceMs: number; untilMs: number },
  marks: ReadonlySet<number>,
): void {
  if (series.n === 0) return;
  const times = series.timeMs.subarray(0, series.n);
  const faults = series.fault.subarray(0, series.n);
  const marked = marks.size > 0 && times.some((tMs) => marks.has(tMs));
  offer(
    line.inbox,
    {
      times,
      values: series.value.subarray(0, series.n),
      faults: marked ? faults.map((fault, i) => (marks.has(times[i]!) ? fault | STEP_BIT : fault)) : faults,
    },
    feed,
    false,
  );
}
