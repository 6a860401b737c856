/**
 * Readings of one channel that wait in order of time: chunks of typed columns, filled at one end
 * and emptied at the other. A week at one reading a second is 10 MiB in chunks, and would be 60 in
 * objects.
 */
import { faultOf } from './segment.ts';

/**
 * A chunk starts small, because most wells wait for one pack only, and grows to 68 KiB, where
 * nothing is gained by more.
 */
const MIN_CHUNK_SIZE = 32;
const MAX_CHUNK_SIZE = 4096;

interface Chunk {
  time: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
  from: number;
  to: number;
}

export interface ReadingQueue {
  code: number;
  chunks: Chunk[];
  n: number;
  /** Time of its newest reading; -Infinity while it is empty and never had one. */
  lastMs: number;
}

export function newQueue(code: number): ReadingQueue {
  return { code, chunks: [newChunk(MIN_CHUNK_SIZE)], n: 0, lastMs: Number.NEGATIVE_INFINITY };
}

function newChunk(size: number): Chunk {
  return {
    time: new Float64Array(size),
    value: new Float64Array(size),
    fault: new Uint8Array(size),
    from: 0,
    to: 0,
  };
}

/** Time of its oldest reading; Infinity where it is empty. */
export function headMs(queue: ReadingQueue): number {
  if (queue.n === 0) return Number.POSITIVE_INFINITY;
  const chunk = queue.chunks[0]!;
  return chunk.time[chunk.from]!;
}

/** Adds a reading later than all in it. */
export function push(queue: ReadingQueue, timeMs: number, value: number, fault: number): void {
  let chunk = queue.chunks[queue.chunks.length - 1]!;
  if (chunk.to === chunk.time.length) {
    chunk = newChunk(Math.min(MAX_CHUNK_SIZE, 2 * chunk.time.length));
    queue.chunks.push(chunk);
  }
  chunk.time[chunk.to] = timeMs;
  chunk.value[chunk.to] = value;
  chunk.fault[chunk.to] = fault;
  chunk.to++;
  queue.n++;
  queue.lastMs = timeMs;
}

/** The chunk whose `from` is the oldest reading. Only where the run is not empty. */
export function headChunk(queue: ReadingQueue): Readonly<Chunk> {
  return queue.chunks[0]!;
}

/** Takes its oldest reading away. */
export function dropHead(queue: ReadingQueue): void {
  const chunk = queue.chunks[0]!;
  chunk.from++;
  queue.n--;
  if (chunk.from < chunk.to) return;
  if (queue.chunks.length > 1) queue.chunks.shift();
  else if (chunk.time.length > MIN_CHUNK_SIZE * 8)
    queue.chunks[0] = newChunk(MIN_CHUNK_SIZE); // A backlog went by.
  else {
    chunk.from = 0;
    chunk.to = 0;
  }
}

/**
 * Two runs of a channel as one; where both have a time, both readings stay unless `prefer` can't
 * tell them apart.
 */
export function mergeQueues(a: ReadingQueue, b: ReadingQueue): ReadingQueue {
  const merged = newQueue(a.code);
  while (a.n > 0 || b.n > 0) {
    const aMs = headMs(a);
    const bMs = headMs(b);
    const from = aMs <= bMs ? a : b;
    const chunk = headChunk(from);
    const value = chunk.value[chunk.from]!;
    const fault = chunk.fault[chunk.from]!;
    if (aMs !== bMs) {
      push(merged, Math.min(aMs, bMs), value, fault);
      dropHead(from);
      continue;
    }
    const other = headChunk(b);
    const otherFault = other.fault[other.from]!;
    const second = takesPrecedence(other.value[other.from]!, otherFault, value, fault);
    push(
      merged,
      aMs,
      second ? other.value[other.from]! : value,
      (second ? otherFault : fault) | ((fault | otherFault) & ~3),
    );
    dropHead(a);
    dropHead(b);
  }
  return merged;
}

/**
 * Which of two readings of one channel at one time counts: a number before a fault, then the
 * smaller number, then the smaller fault. Which of them is right can't be known; what matters is
 * that the order in which they came does not decide.
 */
export function takesPrecedence(value: number, fault: number, thanValue: number, thanFault: number): boolean {
  const code = faultOf(fault);
  const thanCode = faultOf(thanFault);
  if (code !== thanCode) return code < thanCode;
  return value < thanValue;
}
