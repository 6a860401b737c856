/**
 * From journal to blocks. A tail is sealed into a block of level 0 when it is long or old; when
 * enough of those wait, they are merged with what they touch into long blocks of level 1, which is
 * what stays. Two stages, because a long block is small (0.5 B a reading) but must not be written
 * anew for every half hour, nor may half a day of readings wait in memory (17 B each).
 */
import { HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import type { BlockInfo, BlockTable } from './block-table.ts';
import { MAX_SPAN_MS } from './block-table.ts';
import { appendColumns, sliceColumns, newColumns, sortReadings } from './columns.ts';
import type { Series } from '../store.ts';
import type { SeriesState } from './tails.ts';

/** Half an hour at 1 Hz, three hours at 5 s. */
export const SEAL_READINGS = 2_048;
export const SEAL_AFTER_MS = 30 * MINUTE_MS;

/** About 32 KB: pages that are half empty at the end of a block are then few. */
export const BLOCK_READINGS = 65_536;
/** Merging rewrites a long block that is not yet full: this often at most until it is. */
const MERGE_READINGS = BLOCK_READINGS / 4;
const MERGE_BLOCKS = 32;

export function shouldSeal(state: SeriesState, nowMs: number): boolean {
  const { tail } = state;
  return tail !== undefined && (tail.n >= SEAL_READINGS || nowMs - tail.sinceMs >= SEAL_AFTER_MS);
}

export function shouldMerge(state: SeriesState): boolean {
  return state.freshBlocks >= MERGE_BLOCKS || state.freshReadings >= MERGE_READINGS;
}

/**
 * Fresh blocks are cut at holes like this: a tail that holds live readings and a backlog of last
 * week must not become one block that touches, and so rewrites, everything between.
 */
const MAX_FRESH_GAP_MS = HOUR_MS;

/**
 * Ordered readings in pieces that are no longer than a block may be, of about equal size, cut at
 * gaps longer than `maxGapMs`.
 */
export function splitReadings(readings: Series, maxGapMs: number): Series[] {
  const maxReadings = Math.ceil(readings.n / Math.max(1, Math.ceil(readings.n / BLOCK_READINGS)));
  const list: Series[] = [];
  let start = 0;
  for (let i = 1; i <= readings.n; i++) {
    const spans =
      readings.timeMs[i]! - readings.timeMs[start]! > MAX_SPAN_MS ||
      readings.timeMs[i]! - readings.timeMs[i - 1]! > maxGapMs;
    // Readings of one time stay in one block: readers choose between them there.
    const full = i - start >= maxReadings && readings.timeMs[i] !== readings.timeMs[i - 1];
    if (i < readings.n && !spans && !full) continue;
    list.push(sliceColumns(readings, start, i));
    start = i;
  }
  return list;
}

/** Writes a tail as blocks of level 0. Returns them. */
export function sealTail(seriesId: number, tail: Series, blocks: BlockTable): BlockInfo[] {
  return splitReadings(sortReadings(tail, true), MAX_FRESH_GAP_MS).map((piece) =>
    blocks.add(seriesId, 0, piece),
  );
}

/** What is written anew together: it overlaps, or it is short and next to each other. */
export function mergeGroups(blocks: readonly BlockInfo[]): BlockInfo[][] {
  const groups: BlockInfo[][] = [];
  let n = 0;
  let fromMs = 0;
  let toMs = 0;
  for (const place of blocks) {
    const group = groups.at(-1);
    const overlaps = place.fromMs <= toMs;
    const fits = n + place.n <= BLOCK_READINGS && place.toMs - fromMs <= MAX_SPAN_MS;
    if (group && (overlaps || fits)) {
      group.push(place);
      n += place.n;
      toMs = Math.max(toMs, place.toMs);
    } else {
      groups.push([place]);
      ({ n, fromMs, toMs } = place);
    }
  }
  return groups.filter((group) => group.some(({ level }) => level === 0));
}

/**
 * Merges all fresh blocks of a series with what they touch. Returns how many readings were doubles.
 */
export function mergeSeries(seriesId: number, blocks: BlockTable): number {
  let doubles = 0;
  for (const group of mergeGroups(
    blocks.overlapping(seriesId, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER),
  )) {
    const joined = newColumns(group.reduce((sum, place) => sum + place.n, 0));
    for (const place of group) {
      const readings = blocks.read(place.id);
      appendColumns(joined, readings, 0, readings.n);
    }
    const merged = sortReadings(joined, true);
    for (const piece of splitReadings(merged, MAX_SPAN_MS)) blocks.add(seriesId, 1, piece);
    for (const place of group) blocks.delete(place.id);
    doubles += joined.n - merged.n;
  }
  return doubles;
}
