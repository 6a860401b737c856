/**
 * Readings of one series in memory: three columns and how many of their places count. Which of two readings of one moment comes
 * out is decided here, for every reader: a number before a fault, the smaller number, the smaller fault code.
 */
import type { Series } from './store.ts';

export function newColumns(size: number): Series {
  return { n: 0, timeMs: new Float64Array(size), value: new Float64Array(size), fault: new Uint8Array(size) };
}

/** Copies readings `from` up to `to` of `source` behind those of `target`, which has room for them. */
export function appendColumns(target: Series, source: Series, from: number, to: number): void {
  target.timeMs.set(source.timeMs.subarray(from, to), target.n);
  target.value.set(source.value.subarray(from, to), target.n);
  target.fault.set(source.fault.subarray(from, to), target.n);
  target.n += to - from;
}

/** The same readings without room to spare; it shares memory. */
export function cutColumns(source: Series, from: number, to: number): Series {
  return {
    n: to - from,
    timeMs: source.timeMs.subarray(from, to),
    value: source.value.subarray(from, to),
    fault: source.fault.subarray(from, to),
  };
}

/** The first place whose time is not before `timeMs`, in columns ordered by time. */
export function placeOf(source: Series, timeMs: number): number {
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
export function isStrict(source: Series): boolean {
  const { timeMs, n } = source;
  for (let i = 1; i < n; i++) if (!(timeMs[i]! > timeMs[i - 1]!)) return false;
  return true;
}

/**
 * Ordered by time and, within one time, the chosen reading first; exact doubles once. `all` keeps the others of one time behind
 * the chosen one (for storage), else they are left out (for readers).
 */
export function ordered(source: Series, all: boolean): Series {
  if (isStrict(source)) return source;
  const { timeMs, value, fault } = source;
  const places = Uint32Array.from({ length: source.n }, (_, i) => i);
  places.sort(
    (a, b) =>
      timeMs[a]! - timeMs[b]! ||
      Number(fault[a] !== 0) - Number(fault[b] !== 0) ||
      (fault[a] === 0 ? value[a]! - value[b]! : fault[a]! - fault[b]!),
  );
  const target = newColumns(source.n);
  let before = -1;
  for (const place of places) {
    const sameTime = before >= 0 && timeMs[place] === timeMs[before];
    const sameReading = sameTime && fault[place] === fault[before] && Object.is(value[place], value[before]);
    if (sameTime && (sameReading || !all)) continue;
    target.timeMs[target.n] = timeMs[place]!;
    target.value[target.n] = value[place]!;
    target.fault[target.n] = fault[place]!;
    target.n += 1;
    before = place;
  }
  return target;
}
