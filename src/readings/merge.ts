/**
 * The inbox of one well: readings of its channels, from whatever nodes, wait here until they are handed on in one order, by time and then by
 * channel, each once. Whatever the packing and order in which they came, and however often, the same stretches come out.
 */
import { channelCode } from '../card/channels.ts';
import { feedsOf, type Feed, type ReadTable } from '../card/reads.ts';
import type { PackColumn } from '../wire/messages.ts';
import type { PlacedPack } from './placed.ts';
import { dropHead, headChunk, headMs, isBetter, mergeRuns, newRun, push, type Run } from './run.ts';
import { START_PLACE, STEP_BIT, type Stretch } from './stretch.ts';

/**
 * Runs of one channel that wait side by side; in order there is one, with a backlog behind live packs two. Of more, the two most alike in
 * length become one, so that a reading is moved about log2(n) times at most: 20 runs of doubling length are a million packs.
 */
const MAX_RUNS = 20;

export interface Inbox {
  /** By channel code, then as they were made. */
  runs: Run[];
  /** Everything up to this time was handed on; what comes for it now is late. */
  drainedToMs: number;
}

export function newInbox(): Inbox {
  return { runs: [], drainedToMs: Number.NEGATIVE_INFINITY };
}

/** A stretch to drain into; one serves all wells in turn. */
export function newStretch(capacity: number): Stretch {
  return {
    n: 0,
    timeMs: new Float64Array(capacity),
    channel: new Uint8Array(capacity),
    value: new Float64Array(capacity),
    fault: new Uint8Array(capacity),
  };
}

/** Readings that wait. */
export function waiting(inbox: Inbox): number {
  let n = 0;
  for (const run of inbox.runs) n += run.n;
  return n;
}

/** What `table` gives this well of a placed pack. Returns the time of the earliest reading that is late, which is left out; Infinity for none. */
export function offerPack(inbox: Inbox, well: string, placed: PlacedPack, table: ReadTable): number {
  let lateMs = Number.POSITIVE_INFINITY;
  if (placed.timeUnknown) return lateMs;
  for (const column of placed.columns) {
    for (const feed of feedsOf(table, placed.node, column.channel)) {
      if (feed.well !== well) continue;
      const code = placed.kind === 'start' ? startCode(column.channel, feed.code) : feed.code;
      if (code === undefined) continue;
      lateMs = Math.min(lateMs, offer(inbox, column, { ...feed, code }, placed.clockStep === true));
    }
  }
  return lateMs;
}

/** The code of a start record of this current; of a start pack nothing else counts. */
function startCode(channel: string, code: number): number | undefined {
  const own = channelCode(channel);
  return own !== undefined && (own & 15) < 3 && (code & 15) < 3 ? code + START_PLACE : undefined;
}

/** One column of readings for one channel of the well, within the time of its feed. Returns as `offerPack` does. */
export function offer(
  inbox: Inbox,
  column: Pick<PackColumn, 'times' | 'values' | 'faults'>,
  feed: Pick<Feed, 'code' | 'sinceMs' | 'untilMs'>,
  stepped: boolean,
): number {
  const { times, values, faults } = column;
  let lateMs = Number.POSITIVE_INFINITY;
  let mark = stepped ? STEP_BIT : 0;
  let run: Run | undefined;
  for (let i = 0; i < times.length; i++) {
    const t = times[i]!;
    if (t < feed.sinceMs || t >= feed.untilMs) continue;
    if (t <= inbox.drainedToMs) {
      if (t < lateMs) lateMs = t;
      continue;
    }
    if (run === undefined || t <= run.lastMs) run = runFor(inbox, feed.code, t);
    push(run, t, values[i]!, (faults === undefined ? 0 : faults[i]!) | mark);
    mark = 0;
  }
  return lateMs;
}

/** The run of this channel that ends last before `timeMs`, so that runs stay few. */
function runFor(inbox: Inbox, code: number, timeMs: number): Run {
  let best: Run | undefined;
  let mine = 0;
  for (const run of inbox.runs) {
    if (run.code !== code) continue;
    mine++;
    if (run.lastMs < timeMs && (best === undefined || run.lastMs > best.lastMs)) best = run;
  }
  if (best) return best;
  if (mine >= MAX_RUNS) mergeAlike(inbox, code);
  const made = newRun(code);
  let at = inbox.runs.length;
  while (at > 0 && inbox.runs[at - 1]!.code > code) at--;
  inbox.runs.splice(at, 0, made);
  return made;
}

function mergeAlike(inbox: Inbox, code: number): void {
  const mine = inbox.runs.filter((run) => run.code === code).sort((a, b) => a.n - b.n);
  let at = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < mine.length; i++) {
    const times = (mine[i + 1]!.n + 1) / (mine[i]!.n + 1);
    if (times < least) {
      least = times;
      at = i;
    }
  }
  const [a, b] = [mine[at]!, mine[at + 1]!];
  inbox.runs[inbox.runs.indexOf(a)] = mergeRuns(a, b);
  inbox.runs.splice(inbox.runs.indexOf(b), 1);
}

/**
 * Moves what waits up to and including `toMs` into `into`, as far as it goes: call again until less than its capacity came. From then on what
 * comes for that time is late.
 */
export function drain(inbox: Inbox, toMs: number, into: Stretch): Stretch {
  const { timeMs, channel, value, fault } = into;
  const capacity = timeMs.length;
  const { runs } = inbox;
  let n = 0;
  for (;;) {
    let run: Run | undefined;
    let t = Number.POSITIVE_INFINITY;
    for (const other of runs) {
      const otherMs = headMs(other);
      if (otherMs < t) {
        t = otherMs;
        run = other;
      }
    }
    if (run === undefined || t > toMs) break;
    const twin = n > 0 && timeMs[n - 1] === t && channel[n - 1] === run.code;
    if (n === capacity && !twin) break;
    const chunk = headChunk(run);
    const v = chunk.value[chunk.from]!;
    const f = chunk.fault[chunk.from]!;
    dropHead(run);
    const at = twin ? n - 1 : n++;
    if (twin && !isBetter(v, f, value[at]!, fault[at]!)) fault[at]! |= f & STEP_BIT;
    else {
      timeMs[at] = t;
      channel[at] = run.code;
      value[at] = v;
      fault[at] = twin ? f | (fault[at]! & STEP_BIT) : f;
    }
  }
  into.n = n;
  if (toMs > inbox.drainedToMs) inbox.drainedToMs = toMs;
  if (runs.length > 1) dropEmpty(inbox);
  return into;
}

/** Of each channel one run is enough while nothing waits. */
function dropEmpty(inbox: Inbox): void {
  const { runs } = inbox;
  for (let i = runs.length - 1; i > 0; i--) {
    if (runs[i]!.code !== runs[i - 1]!.code) continue;
    if (runs[i]!.n === 0) runs.splice(i, 1);
    else if (runs[i - 1]!.n === 0) runs.splice(i - 1, 1);
  }
}

/** From now on what comes for `toMs` or earlier is late, though it was not handed on. */
export function closeTo(inbox: Inbox, toMs: number): void {
  if (toMs > inbox.drainedToMs) inbox.drainedToMs = toMs;
}
