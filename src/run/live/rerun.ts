/**
 * Runs a well again from the kept readings, from its last save before a moment: after late packs, and after a crash. What was derived
 * since then is made again; alarms are compared with those already told, so that nobody hears the same twice and hears of what
 * turned out wrong.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { readAct } from '../../card/read-act.ts';
import { feedsOf, sourcesOf } from '../../card/reads.ts';
import type { Emitted } from '../../engine/emit.ts';
import { newWell } from '../../engine/engine.ts';
import type { NodeNews } from '../../engine/input.ts';
import { offer } from '../../readings/merge.ts';
import { START_PLACE } from '../../readings/stretch.ts';
import type { Series } from '../../store/store.ts';
import { addInput, newLine, passLine, type Line } from './line.ts';
import { frontierOf, keepEmitted, stop } from './pass.ts';
import { unpack } from './save.ts';
import type { LiveState } from './state.ts';
import { tellAgain } from './tell.ts';

/** At most once a minute a well (design): a backlog of thousands of packs costs one run. */
export const RERUN_EVERY_MS = 60_000;
/** Read and passed in pieces, so that a long stretch takes little memory. */
const PIECE_MS = 6 * 3_600_000;

/** Runs `line` again from before `fromMs` to its frontier, in place. Reads only what is committed: called before a turn's messages. */
export function rerun(live: LiveState, line: Line, fromMs: number, nowMs: number): void {
  live.counts.reruns++;
  const { store } = live.options;
  const saved = store.snapshot(line.well, fromMs - 1);
  const card = live.cards.get(line.well)!;
  const again = newLine(line.well, saved ? unpack(saved.state) : newWell(card));
  again.passedMs = saved?.atMs ?? -1;
  again.inbox.drainedToMs = again.passedMs < 0 ? Number.NEGATIVE_INFINITY : again.passedMs;
  addKeptInputs(live, again);
  const events: Emitted[] = [];
  const toMs = frontierOf(live, line, nowMs);
  try {
    runKept(live, again, toMs, (e) => events.push(e));
  } catch (error) {
    stop(live, line, error, nowMs);
    return;
  }
  live.changes.push({
    change: 'forget-derived',
    well: line.well,
    fromMs: again.passedMs < 0 ? 0 : (saved?.atMs ?? 0),
  });
  for (const e of events) if (e.event.event !== 'alarm') keepEmitted(live, line, e, nowMs);
  const alarms = events.map((e) => e.event).filter((event): event is AlarmEvent => event.event === 'alarm');
  tellAgain(live, line, alarms, { fromMs: saved?.atMs ?? 0, toMs, nowMs });
  live.changes.push({ change: 'rerun-mark', well: line.well, fromMs: null });
  delete line.rerunFromMs;
  delete line.fault;
  line.reranAtMs = nowMs;
  line.unsaved = true;
  Object.assign(line, {
    state: again.state,
    inbox: again.inbox,
    waiting: again.waiting,
    passedMs: again.passedMs,
  });
}

/** Acts and news after the save, as they were kept. */
function addKeptInputs(live: LiveState, line: Line): void {
  const { store } = live.options;
  const fromMs = line.passedMs + 1;
  for (const row of store.acts({ well: line.well, fromMs })) {
    const read = readAct(row.body);
    if ('act' in read) addInput(line, { atMs: row.atMs, act: read.act });
    else
      live.options.log('warn', `Cannot use the act of ${new Date(row.atMs).toISOString()}: ${read.problem}`);
  }
  for (const { atMs, body } of store.news(line.well, fromMs))
    addInput(line, { atMs, node: body as NodeNews });
}

function runKept(live: LiveState, line: Line, toMs: number, emit: (e: Emitted) => void): void {
  const begin = firstReadingMs(live, line);
  for (let fromMs = begin; fromMs <= toMs; fromMs += PIECE_MS) {
    const untilMs = Math.min(fromMs + PIECE_MS - 1, toMs);
    offerKept(live, line, fromMs, untilMs);
    passLine(line, untilMs, emit);
  }
  // What lies beyond the frontier waits for its turn, as it did before.
  offerKept(live, line, Math.max(begin, toMs + 1), Number.MAX_SAFE_INTEGER);
}

/** Where to begin reading: after the save; before there is one, which is within minutes of the first pack, at the first reading. */
function firstReadingMs(live: LiveState, line: Line): number {
  if (line.passedMs >= 0) return line.passedMs + 1;
  let first = Number.POSITIVE_INFINITY;
  for (const { node, from } of sourcesOf(line.state.card)) {
    const series = live.options.store.readings(node, from, 0, Number.MAX_SAFE_INTEGER);
    if (series.n > 0) first = Math.min(first, series.timeMs[0]!);
  }
  return first;
}

function offerKept(live: LiveState, line: Line, fromMs: number, untilMs: number): void {
  const { store } = live.options;
  for (const { node, from, code, sinceMs, untilMs: sourceUntilMs } of sourcesOf(line.state.card)) {
    const piece = { fromMs: Math.max(fromMs, sinceMs), untilMs: Math.min(untilMs, sourceUntilMs - 1) };
    if (piece.untilMs < piece.fromMs) continue;
    for (const feed of feedsOf(live.table, node, from)) {
      if (feed.well !== line.well || feed.code !== code || feed.sinceMs !== sinceMs) continue;
      give(line, store.readings(node, from, piece.fromMs, piece.untilMs), { ...feed, code });
      if ((code & 15) >= 3) continue;
      give(line, store.readings(node, `start:${from}`, piece.fromMs, piece.untilMs), {
        ...feed,
        code: code + START_PLACE,
      });
    }
  }
}

function give(line: Line, series: Series, feed: { code: number; sinceMs: number; untilMs: number }): void {
  if (series.n === 0) return;
  const times = series.timeMs.subarray(0, series.n);
  offer(
    line.inbox,
    { times, values: series.value.subarray(0, series.n), faults: series.fault.subarray(0, series.n) },
    feed,
    false,
  );
}
