/**
 * The inbox of one well: readings of its channels, from whatever nodes, wait here until they are
 * handed on in one order, by time and then by channel, each once. Whatever the packing and order in
 * which they came, and however often, the same stretches come out.
 */
import { channelCode, isCurrent, startCodeOf } from '../domain/channels.ts';
import { feedsOf, type Feed, type ReadTable } from '../domain/sources.ts';
import type { PackColumn } from '../decode/messages.ts';
import type { PlacedPack } from './placed-pack.ts';
import {
  dropHead,
  headChunk,
  headMs,
  takesPrecedence,
  mergeQueues,
  newQueue,
  push,
  type ReadingQueue,
} from './reading-queue.ts';
import { CLOCK_STEP_BIT, type Segment } from './segment.ts';

/**
 * Runs of one channel that wait side by side; in order there is one, with a backlog behind live
 * packs two. Of more, the two most alike in length become one, so that a reading is moved about
 * log2(n) times at most: 20 runs of doubling length are a million packs.
 */
const MAX_QUEUES = 20;

export interface Inbox {
  /** By channel code, then as they were made. */
  queues: ReadingQueue[];
  /** Everything up to this time was handed on; what comes for it now is late. */
  drainedToMs: number;
}

export function newInbox(): Inbox {
  return { queues: [], drainedToMs: Number.NEGATIVE_INFINITY };
}

/** A stretch to drain into; one serves all wells in turn. */
export function newSegment(capacity: number): Segment {
  return {
    n: 0,
    timeMs: new Float64Array(capacity),
    channel: new Uint8Array(capacity),
    value: new Float64Array(capacity),
    fault: new Uint8Array(capacity),
  };
}

/** Readings that wait. */
export function pendingCount(inbox: Inbox): number {
  let n = 0;
  for (const queue of inbox.queues) n += queue.n;
  return n;
}

/**
 * What `table` gives this well of a placed pack. Returns the time of the earliest reading that is
 * late, which is left out; Infinity for none.
 */
export function addPack(inbox: Inbox, well: string, placed: PlacedPack, table: ReadTable): number {
  let lateMs = Number.POSITIVE_INFINITY;
  if (placed.timeUnknown) return lateMs;
  for (const column of placed.columns) {
    for (const feed of feedsOf(table, placed.node, column.channel)) {
      if (feed.well !== well) continue;
      const code = placed.kind === 'start' ? startCode(column.channel, feed.code) : feed.code;
      if (code === undefined) continue;
      lateMs = Math.min(lateMs, addColumn(inbox, column, { ...feed, code }, placed.clockStep === true));
    }
  }
  return lateMs;
}

/** The code of a start record of this current; of a start pack nothing else counts. */
function startCode(channel: string, code: number): number | undefined {
  const own = channelCode(channel);
  return own !== undefined && isCurrent(own) && isCurrent(code) ? startCodeOf(code) : undefined;
}

/**
 * One column of readings for one channel of the well, within the time of its feed. Returns as
 * `addPack` does.
 */
export function addColumn(
  inbox: Inbox,
  column: Pick<PackColumn, 'times' | 'values' | 'faults'>,
  feed: Pick<Feed, 'code' | 'sinceMs' | 'untilMs'>,
  stepped: boolean,
): number {
  const { times, values, faults } = column;
  let lateMs = Number.POSITIVE_INFINITY;
  let mark = stepped ? CLOCK_STEP_BIT : 0;
  let queue: ReadingQueue | undefined;
  for (let i = 0; i < times.length; i++) {
    const t = times[i]!;
    if (t < feed.sinceMs || t >= feed.untilMs) continue;
    if (t <= inbox.drainedToMs) {
      if (t < lateMs) lateMs = t;
      continue;
    }
    if (queue === undefined || t <= queue.lastMs) queue = queueFor(inbox, feed.code, t);
    push(queue, t, values[i]!, (faults === undefined ? 0 : faults[i]!) | mark);
    mark = 0;
  }
  return lateMs;
}

/** The run of this channel that ends last before `timeMs`, so that runs stay few. */
function queueFor(inbox: Inbox, code: number, timeMs: number): ReadingQueue {
  let best: ReadingQueue | undefined;
  let count = 0;
  for (const queue of inbox.queues) {
    if (queue.code !== code) continue;
    count++;
    if (queue.lastMs < timeMs && (best === undefined || queue.lastMs > best.lastMs)) best = queue;
  }
  if (best) return best;
  if (count >= MAX_QUEUES) mergeMostSimilar(inbox, code);
  const queue = newQueue(code);
  let at = inbox.queues.length;
  while (at > 0 && inbox.queues[at - 1]!.code > code) at--;
  inbox.queues.splice(at, 0, queue);
  return queue;
}

function mergeMostSimilar(inbox: Inbox, code: number): void {
  const candidates = inbox.queues.filter((queue) => queue.code === code).sort((a, b) => a.n - b.n);
  let at = 0;
  let lowestRatio = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < candidates.length; i++) {
    const ratio = (candidates[i + 1]!.n + 1) / (candidates[i]!.n + 1);
    if (ratio < lowestRatio) {
      lowestRatio = ratio;
      at = i;
    }
  }
  const [a, b] = [candidates[at]!, candidates[at + 1]!];
  inbox.queues[inbox.queues.indexOf(a)] = mergeQueues(a, b);
  inbox.queues.splice(inbox.queues.indexOf(b), 1);
}

/**
 * Moves what waits up to and including `toMs` into `segment`, as far as it goes: call again until
 * less than its capacity came. From then on what comes for that time is late.
 */
export function drain(inbox: Inbox, toMs: number, segment: Segment): Segment {
  const { timeMs, channel, value, fault } = segment;
  const capacity = timeMs.length;
  const { queues } = inbox;
  let n = 0;
  for (;;) {
    let queue: ReadingQueue | undefined;
    let t = Number.POSITIVE_INFINITY;
    for (const other of queues) {
      const otherMs = headMs(other);
      if (otherMs < t) {
        t = otherMs;
        queue = other;
      }
    }
    if (queue === undefined || t > toMs) break;
    const sameReading = n > 0 && timeMs[n - 1] === t && channel[n - 1] === queue.code;
    if (n === capacity && !sameReading) break;
    const chunk = headChunk(queue);
    const v = chunk.value[chunk.from]!;
    const f = chunk.fault[chunk.from]!;
    dropHead(queue);
    const at = sameReading ? n - 1 : n++;
    if (sameReading && !takesPrecedence(v, f, value[at]!, fault[at]!)) fault[at]! |= f & CLOCK_STEP_BIT;
    else {
      timeMs[at] = t;
      channel[at] = queue.code;
      value[at] = v;
      fault[at] = sameReading ? f | (fault[at]! & CLOCK_STEP_BIT) : f;
    }
  }
  segment.n = n;
  if (toMs > inbox.drainedToMs) inbox.drainedToMs = toMs;
  if (queues.length > 1) dropEmpty(inbox);
  return segment;
}

/** Of each channel one run is enough while nothing waits. */
function dropEmpty(inbox: Inbox): void {
  const { queues } = inbox;
  for (let i = queues.length - 1; i > 0; i--) {
    if (queues[i]!.code !== queues[i - 1]!.code) continue;
    if (queues[i]!.n === 0) queues.splice(i, 1);
    else if (queues[i - 1]!.n === 0) queues.splice(i - 1, 1);
  }
}

/** From now on what comes for `toMs` or earlier is late, though it was not handed on. */
export function closeUpTo(inbox: Inbox, toMs: number): void {
  if (toMs > inbox.drainedToMs) inbox.drainedToMs = toMs;
}
