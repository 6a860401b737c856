/**
 * Readings and charts out of blocks and the tail. Pieces as a rule follow each other and are only put in a row; where late ones
 * overlap, all are ordered and each time comes out once (./columns.ts says which).
 */
import type { BlockPlace, BlockTable } from './blocks.ts';
import { appendColumns, cutColumns, isStrict, newColumns, ordered, placeOf } from './columns.ts';
import type { ChartSeries, Series } from './store.ts';
import { SUMMARY_MS, addTo, emptyBucket, mergeInto } from './summary.ts';
import type { Bucket } from './summary.ts';
import type { SeriesState } from './tails.ts';

/** The tail in order, cut to [fromMs, toMs). */
function tailPiece(state: SeriesState, fromMs: number, toMs: number): Series | undefined {
  const { tail } = state;
  if (!tail) return undefined;
  const whole = ordered(tail, false);
  const piece = cutColumns(whole, placeOf(whole, fromMs), placeOf(whole, toMs));
  return piece.n > 0 ? piece : undefined;
}

/** Readings of [fromMs, toMs), ordered, each time once. */
export function readSeries(state: SeriesState, blocks: BlockTable, fromMs: number, toMs: number): Series {
  const places = state.id === 0 ? [] : blocks.touching(state.id, fromMs, toMs);
  const tail = tailPiece(state, fromMs, toMs);
  const all = newColumns(places.reduce((sum, place) => sum + place.n, tail?.n ?? 0));
  let inOrder = true;
  const add = (piece: Series): void => {
    const first = placeOf(piece, fromMs);
    const end = placeOf(piece, toMs);
    if (end <= first) return;
    if (all.n > 0 && piece.timeMs[first]! <= all.timeMs[all.n - 1]!) inOrder = false;
    appendColumns(all, piece, first, end);
  };
  for (const place of places) add(blocks.read(place.id));
  if (tail) add(tail);
  const result = inOrder && isStrict(all) ? all : ordered(all, false);
  return cutColumns(result, 0, result.n);
}

/** The time of the first reading, without opening a block. */
export function firstOf(state: SeriesState, blocks: BlockTable): number | undefined {
  const [place] =
    state.id === 0 ? [] : blocks.touching(state.id, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
  let first = place?.fromMs ?? Number.POSITIVE_INFINITY;
  const { tail } = state;
  if (tail) for (let i = 0; i < tail.n; i++) first = Math.min(first, tail.timeMs[i]!);
  return Number.isFinite(first) ? first : undefined;
}

/** Blocks in groups whose times overlap; within a group they must be read together. */
function groups(places: readonly BlockPlace[]): BlockPlace[][] {
  const list: BlockPlace[][] = [];
  let toMs = Number.NEGATIVE_INFINITY;
  for (const place of places) {
    const group = list.at(-1);
    if (group && place.fromMs <= toMs) group.push(place);
    else list.push([place]);
    toMs = Math.max(toMs, place.toMs);
  }
  return list;
}

interface Steps {
  fromMs: number;
  toMs: number;
  stepMs: number;
  buckets: Bucket[];
}

function addReadings(steps: Steps, series: Series): void {
  const end = placeOf(series, steps.toMs);
  for (let i = placeOf(series, steps.fromMs); i < end; i++) {
    if (series.fault[i] !== 0) continue;
    addTo(steps.buckets[Math.floor((series.timeMs[i]! - steps.fromMs) / steps.stepMs)]!, series.value[i]!);
  }
}

function addSummary(steps: Steps, summary: readonly Bucket[]): void {
  for (const bucket of summary) {
    const into = steps.buckets[Math.floor((bucket.place * SUMMARY_MS - steps.fromMs) / steps.stepMs)];
    if (into) mergeInto(into, bucket);
  }
}

/** Steps of three hours and more are made of whole summaries: they begin at a whole one and are a multiple of it. */
function stepsFor(fromMs: number, toMs: number, points: number): Steps {
  const asked = (toMs - fromMs) / points;
  const coarse = asked >= SUMMARY_MS;
  const start = coarse ? Math.floor(fromMs / SUMMARY_MS) * SUMMARY_MS : fromMs;
  const stepMs = coarse ? Math.ceil(asked / SUMMARY_MS) * SUMMARY_MS : asked;
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
  const steps = stepsFor(span.fromMs, span.toMs, Math.floor(span.points));
  if (state) fillSteps(steps, state, blocks);
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

function fillSteps(steps: Steps, state: SeriesState, blocks: BlockTable): void {
  const { fromMs, toMs } = steps;
  const coarse = steps.stepMs % SUMMARY_MS === 0 && fromMs % SUMMARY_MS === 0;
  const tail = tailPiece(state, fromMs, toMs);
  const places = state.id === 0 ? [] : blocks.touching(state.id, fromMs, toMs);
  // The tail may overlap blocks where readings came late: what it touches is read with it.
  const tailPlace = tail && {
    id: 0,
    level: 0,
    fromMs: tail.timeMs[0]!,
    toMs: tail.timeMs[tail.n - 1]!,
    n: tail.n,
  };
  const all = tailPlace ? [...places, tailPlace].sort((a, b) => a.fromMs - b.fromMs) : places;
  for (const group of groups(all)) {
    const [only] = group;
    if (coarse && group.length === 1 && only && only.level > 0) {
      addSummary(steps, blocks.summary(only.id));
      continue;
    }
    const pieces = group.map((place) => (place.id === 0 ? tail! : blocks.read(place.id)));
    const joined = newColumns(pieces.reduce((sum, piece) => sum + piece.n, 0));
    for (const piece of pieces) appendColumns(joined, piece, 0, piece.n);
    addReadings(steps, ordered(joined, false));
  }
}
