/**
 * Readings of one series in memory: three columns and how many of their places count. Which of two
 * readings of one moment comes out is decided here, for every reader: a number before a fault, the
 * smaller number, the smaller fault code.
 */
import type { Series } from '../store.ts';

export function newColumns(size: number): Series {
  return { n: 0, timeMs: new Float64Array(size), value: new Float64Array(size), fault: new Uint8Array(size) };
}

/**
 * Copies readings `from` up to `to` of `source` behind those of `target`, which has room for them.
 */
export function appendColumns(target: Series, source: Series, from: number, to: number): void {
  target.timeMs.set(source.timeMs.subarray(from, to), target.n);
  target.value.set(source.value.subarray(from, to), target.n);
  target.fault.set(source.fault.subarray(from, to), target.n);
  target.n += to - from;
}

/** The same readings without room to spare; it shares memory. */
export function sliceColumns(source: Series, from: number, to: number): Series {
  return {
    n: to - from,
    timeMs: source.timeMs.subarray(from, to),
    value: source.value.subarray(from, to),
    fault: source.fault.subarray(from, to),
  };
}

/** The first place whose time is not before `timeMs`, in columns ordered by time. */
export function lowerBound(source: Series, timeMs: number): number {
  let low = 0;
  let high = source.n;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (source.timeMs[middle]! < timeMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Whether the times rise strictly: then there is nothing to order and nothing to choose. */
export function isStrictlyIncreasing(source: Series): boolean {
  const { timeMs, n } = source;
  for (let i = 1; i < n; i++) if (!(timeMs[i]! > timeMs[i - 1]!)) return false;
  return true;
}

/**
 * Which of two places comes first: by time, then a number before a fault, the smaller number, the
 * smaller fault code.
 */
function comesFirst({ timeMs, value, fault }: Series, a: number, b: number): boolean {
  const apart = timeMs[a]! - timeMs[b]!;
  if (apart !== 0) return apart < 0;
  const x = fault[a]!;
  const y = fault[b]!;
  if (x === 0 && y === 0) return value[a]! <= value[b]!;
  return x <= y;
}

/** Ends of the stretches that are in order already. */
function sortedRunEnds(source: Series): number[] {
  const ends: number[] = [];
  for (let i = 1; i < source.n; i++) if (!comesFirst(source, i - 1, i)) ends.push(i);
  ends.push(source.n);
  return ends;
}

/**
 * All places in order, by merging the stretches that are in order already: late readings are a few
 * such stretches, so this is one pass and not a sorting of everything.
 */
function sortedIndexes(source: Series): Uint32Array {
  let places = Uint32Array.from({ length: source.n }, (_, i) => i);
  let spare = new Uint32Array(source.n);
  for (let ends = sortedRunEnds(source); ends.length > 1;) {
    const merged: number[] = [];
    for (let k = 0; k < ends.length; k += 2) {
      const from = k === 0 ? 0 : ends[k - 1]!;
      const middle = ends[k]!;
      const to = ends[k + 1] ?? middle;
      let a = from;
      let b = middle;
      for (let at = from; at < to; at++) {
        const left = b >= to || (a < middle && comesFirst(source, places[a]!, places[b]!));
        spare[at] = places[left ? a++ : b++]!;
      }
      merged.push(to);
    }
    // A last stretch without a partner was not copied.
    if (ends.length % 2 === 1) {
      const from = ends.at(-2) ?? 0;
      spare.set(places.subarray(from), from);
    }
    [places, spare] = [spare, places];
    ends = merged;
  }
  return places;
}

/**
 * Ordered by time and, within one time, the chosen reading first; exact doubles once.
 * `keepDuplicates` keeps the others of one time behind the chosen one (for storage), else they are
 * left out (for readers).
 */
export function sortReadings(source: Series, keepDuplicates: boolean): Series {
  if (isStrictlyIncreasing(source)) return source;
  const { timeMs, value, fault } = source;
  const places = sortedIndexes(source);
  const target = newColumns(source.n);
  let before = -1;
  for (const place of places) {
    const sameTime = before >= 0 && timeMs[place] === timeMs[before];
    const sameReading = sameTime && fault[place] === fault[before] && Object.is(value[place], value[before]);
    if (sameTime && (sameReading || !keepDuplicates)) continue;
    target.timeMs[target.n] = timeMs[place]!;
    target.value[target.n] = value[place]!;
    target.fault[target.n] = fault[place]!;
    target.n += 1;
    before = place;
  }
  return target;
}
