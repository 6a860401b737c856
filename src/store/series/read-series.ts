/**
 * Readings and charts out of blocks and the tail. Pieces as a rule follow each other and are only
 * put in a row; where late ones overlap, all are ordered and each time comes out once (./columns.ts
 * says which).
 */
import type { BlockInfo, BlockTable } from './block-table.ts';
import {
  appendColumns,
  sliceColumns,
  isStrictlyIncreasing,
  newColumns,
  sortReadings,
  lowerBound,
} from './columns.ts';
import type { ChartSeries, Series } from '../store.ts';
import { BUCKET_MS, addValue, emptyBucket, mergeBucket } from './summary.ts';
import type { Bucket } from './summary.ts';
import type { SeriesState } from './tails.ts';

/** The tail in order, cut to [fromMs, toMs). */
function tailSlice(state: SeriesState, fromMs: number, toMs: number): Series | undefined {
  const { tail } = state;
  if (!tail) return undefined;
  const whole = sortReadings(tail, false);
  const piece = sliceColumns(whole, lowerBound(whole, fromMs), lowerBound(whole, toMs));
  return piece.n > 0 ? piece : undefined;
}

/** Readings of [fromMs, toMs), ordered, each time once. */
export function readSeries(state: SeriesState, blocks: BlockTable, fromMs: number, toMs: number): Series {
  const places = state.id === 0 ? [] : blocks.overlapping(state.id, fromMs, toMs);
  const tail = tailSlice(state, fromMs, toMs);
  const all = newColumns(places.reduce((sum, place) => sum + place.n, tail?.n ?? 0));
  let inOrder = true;
  const add = (piece: Series): void => {
    const first = lowerBound(piece, fromMs);
    const end = lowerBound(piece, toMs);
    if (end <= first) return;
    if (all.n > 0 && piece.timeMs[first]! <= all.timeMs[all.n - 1]!) inOrder = false;
    appendColumns(all, piece, first, end);
  };
  for (const place of places) add(blocks.read(place.id));
  if (tail) add(tail);
  const result = inOrder && isStrictlyIncreasing(all) ? all : sortReadings(all, false);
  return sliceColumns(result, 0, result.n);
}

/** The time of the first reading, without opening a block. */
export function firstReadingMs(state: SeriesState, blocks: BlockTable): number | undefined {
  const [place] =
    state.id === 0 ? [] : blocks.overlapping(state.id, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
  let first = place?.fromMs ?? Number.POSITIVE_INFINITY;
  const { tail } = state;
  if (tail) for (let i = 0; i < tail.n; i++) first = Math.min(first, tail.timeMs[i]!);
  return Number.isFinite(first) ? first : undefined;
}

/** Blocks in groups whose times overlap; within a group they must be read together. */
function overlapGroups(blocks: readonly BlockInfo[]): BlockInfo[][] {
  const list: BlockInfo[][] = [];
  let toMs = Number.NEGATIVE_INFINITY;
  for (const place of blocks) {
    const group = list.at(-1);
    if (group && place.fromMs <= toMs) group.push(place);
    else list.push([place]);
    toMs = Math.max(toMs, place.toMs);
  }
  return list;
}

interface ChartSteps {
  fromMs: number;
  toMs: number;
  stepMs: number;
  buckets: Bucket[];
}

function addReadings(steps: ChartSteps, series: Series): void {
  const end = lowerBound(series, steps.toMs);
  for (let i = lowerBound(series, steps.fromMs); i < end; i++) {
    if (series.fault[i] !== 0) continue;
    addValue(steps.buckets[Math.floor((series.timeMs[i]! - steps.fromMs) / steps.stepMs)]!, series.value[i]!);
  }
}

function addSummary(steps: ChartSteps, summary: readonly Bucket[]): void {
  for (const bucket of summary) {
    const into = steps.buckets[Math.floor((bucket.index * BUCKET_MS - steps.fromMs) / steps.stepMs)];
    if (into) mergeBucket(into, bucket);
  }
}

/**
 * Steps of three hours and more are made of whole summaries: they begin at a whole one and are a
 * multiple of it.
 */
function chartSteps(fromMs: number, toMs: number, points: number): ChartSteps {
  const exactStepMs = (toMs - fromMs) / points;
  const coarse = exactStepMs >= BUCKET_MS;
  const start = coarse ? Math.floor(fromMs / BUCKET_MS) * BUCKET_MS : fromMs;
  const stepMs = coarse ? Math.ceil(exactStepMs / BUCKET_MS) * BUCKET_MS : exactStepMs;
  const size = coarse ? Math.ceil((toMs - start) / stepMs) : points;
  return {
    fromMs: start,
    // Whole steps, so that each is either wholly there or not at all.
    toMs: coarse ? start + size * stepMs : toMs,
    stepMs,
    buckets: Array.from({ length: size }, (_, i) => emptyBucket(i)),
  };
}

/** @throws RangeError where there is nothing to draw. */
export function chartSeries(
  state: SeriesState | undefined,
  blocks: BlockTable,
  span: { fromMs: number; toMs: number; points: number },
): ChartSeries {
  if (!(span.toMs > span.fromMs) || !(span.points >= 1)) {
    throw new RangeError(
      `Cannot make chart: it needs one point or more and an end after its start: ${span.points} from ${span.fromMs} to ${span.toMs}`,
    );
  }
  const steps = chartSteps(span.fromMs, span.toMs, Math.floor(span.points));
  if (state) fillChartSteps(steps, state, blocks);
  const pick = (of: (bucket: Bucket) => number): (number | null)[] =>
    steps.buckets.map((bucket) => (bucket.count === 0 ? null : of(bucket)));
  return {
    fromMs: steps.fromMs,
    stepMs: steps.stepMs,
    low: pick(({ low }) => low),
    high: pick(({ high }) => high),
    mean: pick(({ sum, count }) => sum / count),
  };
}

function fillChartSteps(steps: ChartSteps, state: SeriesState, blocks: BlockTable): void {
  const { fromMs, toMs } = steps;
  const coarse = steps.stepMs % BUCKET_MS === 0 && fromMs % BUCKET_MS === 0;
  const tail = tailSlice(state, fromMs, toMs);
  const places = state.id === 0 ? [] : blocks.overlapping(state.id, fromMs, toMs);
  // The tail may overlap blocks where readings came late: what it touches is read with it.
  const tailPlace = tail && {
    id: 0,
    level: 0,
    fromMs: tail.timeMs[0]!,
    toMs: tail.timeMs[tail.n - 1]!,
    n: tail.n,
  };
  const all = tailPlace ? [...places, tailPlace].sort((a, b) => a.fromMs - b.fromMs) : places;
  for (const group of overlapGroups(all)) {
    const [only] = group;
    if (coarse && group.length === 1 && only && only.level > 0) {
      addSummary(steps, blocks.summary(only.id));
      continue;
    }
    const pieces = group.map((place) => (place.id === 0 ? tail! : blocks.read(place.id)));
    const joined = newColumns(pieces.reduce((sum, piece) => sum + piece.n, 0));
    for (const piece of pieces) appendColumns(joined, piece, 0, piece.n);
    addReadings(steps, sortReadings(joined, false));
  }
}
