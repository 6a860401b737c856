/**
 * Readings of one channel that wait in order of time: chunks of typed columns, filled at one end and emptied at the other. A week at one
 * reading a second is 10 MiB in chunks, and would be 60 in objects.
 */

/** A chunk starts small, because most wells wait for one pack only, and grows to 68 KiB, where nothing is gained by more. */
const SMALLEST = 32;
const LARGEST = 4096;

interface Chunk {
  time: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
  from: number;
  to: number;
}

export interface Run {
  code: number;
  chunks: Chunk[];
  n: number;
  /** Time of its newest reading; -Infinity while it is empty and never had one. */
  lastMs: number;
}

export function newRun(code: number): Run {
  return { code, chunks: [newChunk(SMALLEST)], n: 0, lastMs: Number.NEGATIVE_INFINITY };
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
export function headMs(run: Run): number {
  if (run.n === 0) return Number.POSITIVE_INFINITY;
  const chunk = run.chunks[0]!;
  return chunk.time[chunk.from]!;
}

/** Adds a reading later than all in it. */
export function push(run: Run, timeMs: number, value: number, fault: number): void {
  let chunk = run.chunks[run.chunks.length - 1]!;
  if (chunk.to === chunk.time.length) {
    chunk = newChunk(Math.min(LARGEST, 2 * chunk.time.length));
    run.chunks.push(chunk);
  }
  chunk.time[chunk.to] = timeMs;
  chunk.value[chunk.to] = value;
  chunk.fault[chunk.to] = fault;
  chunk.to++;
  run.n++;
  run.lastMs = timeMs;
}

/** The chunk whose `from` is the oldest reading. Only where the run is not empty. */
export function headChunk(run: Run): Readonly<Chunk> {
  return run.chunks[0]!;
}

/** Takes its oldest reading away. */
export function dropHead(run: Run): void {
  const chunk = run.chunks[0]!;
  chunk.from++;
  run.n--;
  if (chunk.from < chunk.to) return;
  if (run.chunks.length > 1) run.chunks.shift();
  else if (chunk.time.length > SMALLEST * 8)
    run.chunks[0] = newChunk(SMALLEST); // A backlog went by.
  else {
    chunk.from = 0;
    chunk.to = 0;
  }
}

/** Two runs of a channel as one; where both have a time, both readings stay unless `prefer` can't tell them apart. */
export function mergeRuns(a: Run, b: Run): Run {
  const made = newRun(a.code);
  while (a.n > 0 || b.n > 0) {
    const aMs = headMs(a);
    const bMs = headMs(b);
    const from = aMs <= bMs ? a : b;
    const chunk = headChunk(from);
    const value = chunk.value[chunk.from]!;
    const fault = chunk.fault[chunk.from]!;
    if (aMs !== bMs) {
      push(made, Math.min(aMs, bMs), value, fault);
      dropHead(from);
      continue;
    }
    const other = headChunk(b);
    const otherFault = other.fault[other.from]!;
    const second = isBetter(other.value[other.from]!, otherFault, value, fault);
    push(
      made,
      aMs,
      second ? other.value[other.from]! : value,
      (second ? otherFault : fault) | ((fault | otherFault) & ~3),
    );
    dropHead(a);
    dropHead(b);
  }
  return made;
}

/**
 * Which of two readings of one channel at one time counts: a number before a fault, then the smaller number, then the smaller fault. Which of
 * them is right can't be known; what matters is that the order in which they came does not decide.
 */
export function isBetter(value: number, fault: number, thanValue: number, thanFault: number): boolean {
  const code = fault & 3;
  const thanCode = thanFault & 3;
  if (code !== thanCode) return code < thanCode;
  return value < thanValue;
}
