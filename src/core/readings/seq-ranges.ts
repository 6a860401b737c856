/**
 * Which packs of a boot are accounted for, as sorted ranges of seqs that never touch each other.
 * Packs come in order as a rule, so there is one range and adding to it costs nothing; every gap in
 * between is a pack still owed by the node.
 */

/** Seqs `from` to `to`, both included. */
export interface SeqRange {
  from: number;
  to: number;
  /** The latest time of trusted readings in it, Unix ms; 0 where none was trusted. */
  lastMs: number;
}

export function hasSeq(ranges: readonly SeqRange[], seq: number): boolean {
  for (let i = ranges.length - 1; i >= 0; i--) {
    const range = ranges[i]!;
    if (seq > range.to) return false;
    if (seq >= range.from) return true;
  }
  return false;
}

/**
 * Adds seqs `from` to `to`; what touches becomes one range. `lastMs` is the time of the readings
 * that came with them.
 */
export function addSeqs(ranges: SeqRange[], from: number, to: number, lastMs: number): void {
  if (to < from) return;
  const top = ranges.at(-1);
  if (top && from === top.to + 1) {
    top.to = to;
    if (lastMs > top.lastMs) top.lastMs = lastMs;
    return;
  }
  let at = ranges.length;
  while (at > 0 && ranges[at - 1]!.to >= from - 1) at--;
  const merged: SeqRange = { from, to, lastMs };
  let until = at;
  while (until < ranges.length && ranges[until]!.from <= to + 1) {
    const range = ranges[until]!;
    merged.from = Math.min(merged.from, range.from);
    merged.to = Math.max(merged.to, range.to);
    merged.lastMs = Math.max(merged.lastMs, range.lastMs);
    until++;
  }
  ranges.splice(at, until - at, merged);
}

/** Takes seqs `from` to `to` out again. */
export function removeSeqs(ranges: SeqRange[], from: number, to: number): void {
  for (let i = ranges.length - 1; i >= 0; i--) {
    const range = ranges[i]!;
    if (range.from > to || range.to < from) continue;
    const parts: SeqRange[] = [];
    if (range.from < from) parts.push({ ...range, to: from - 1 });
    if (range.to > to) parts.push({ ...range, from: to + 1 });
    ranges.splice(i, 1, ...parts);
  }
}

/** The latest trusted time of any seq below `seq`; 0 where there is none. */
export function lastMsBelow(ranges: readonly SeqRange[], seq: number): number {
  let lastMs = 0;
  for (const range of ranges) {
    if (range.to >= seq) break;
    if (range.lastMs > lastMs) lastMs = range.lastMs;
  }
  return lastMs;
}

/** How many seqs in `from` to `to` are in no range. */
export function missingIn(ranges: readonly SeqRange[], from: number, to: number): number {
  let missing = Math.max(0, to - from + 1);
  for (const range of ranges) {
    const both = Math.min(range.to, to) - Math.max(range.from, from) + 1;
    if (both > 0) missing -= both;
  }
  return missing;
}

/**
 * Keeps at most `max` ranges by forgetting the shortest between the first and the last. Forgetting
 * is safe: what is not known to have come is asked for again, comes again, and its readings fall on
 * those already there.
 */
export function limitRanges(ranges: SeqRange[], max: number): void {
  while (ranges.length > max) {
    let shortest = 1;
    for (let i = 2; i < ranges.length - 1; i++) {
      if (ranges[i]!.to - ranges[i]!.from < ranges[shortest]!.to - ranges[shortest]!.from) shortest = i;
    }
    ranges.splice(shortest, 1);
  }
}
