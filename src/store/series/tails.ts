/**
 * What was committed but not yet sealed into blocks, by node and channel, in the order it came. The
 * journal on disk holds the same; a tail is there so that a reader need not search the journal.
 * Columns are typed arrays that double: 17 bytes a reading.
 */
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import { newColumns } from './columns.ts';
import type { Series } from '../store.ts';

interface Tail extends Series {
  /** Journal rows of the first and the last reading. */
  firstRow: number;
  lastRow: number;
  /** Arrival of the first pack. */
  sinceMs: number;
}

/**
 * One channel of one node: its row in `series` (0: none yet), how far it is sealed, and its tail.
 */
export interface SeriesState {
  id: number;
  node: string;
  channel: string;
  sealedRow: number;
  tail?: Tail;
  /** Blocks of level 0 and the readings in them: they wait to be merged. */
  freshBlocks: number;
  freshReadings: number;
}

export type SeriesMap = Map<string, Map<string, SeriesState>>;

const INITIAL_CAPACITY = 64;

/**
 * Start packs are a series of their own, so that 50 readings a second do not stand between steady
 * ones.
 */
const START_PREFIX = 'start:';
/**
 * Readings of which nobody knows when they were taken: kept where nothing looks for them by chance.
 */
export const UNTIMED_PREFIX = 'untimed:';

function seriesChannel(pack: PlacedPack, channel: string): string {
  const name = pack.kind === 'start' ? START_PREFIX + channel : channel;
  return pack.timeUnknown ? UNTIMED_PREFIX + name : name;
}

export function getOrCreateSeries(map: SeriesMap, node: string, channel: string): SeriesState {
  let channels = map.get(node);
  if (!channels) {
    channels = new Map();
    map.set(node, channels);
  }
  let state = channels.get(channel);
  if (!state) {
    state = { id: 0, node, channel, sealedRow: 0, freshBlocks: 0, freshReadings: 0 };
    channels.set(channel, state);
  }
  return state;
}

function ensureCapacity(tail: Tail, more: number): void {
  const size = tail.timeMs.length;
  if (tail.n + more <= size) return;
  const grown = newColumns(Math.max(size * 2, tail.n + more));
  grown.timeMs.set(tail.timeMs.subarray(0, tail.n));
  grown.value.set(tail.value.subarray(0, tail.n));
  grown.fault.set(tail.fault.subarray(0, tail.n));
  tail.timeMs = grown.timeMs;
  tail.value = grown.value;
  tail.fault = grown.fault;
}

/**
 * Puts the readings of one pack into the tails; columns that are sealed up to `row` already are
 * passed over.
 * @returns how many readings were put.
 */
export function appendToTails(map: SeriesMap, pack: PlacedPack, row: number): number {
  let put = 0;
  for (const column of pack.columns) {
    const n = column.times.length;
    if (n === 0) continue;
    const state = getOrCreateSeries(map, pack.node, seriesChannel(pack, column.channel));
    if (row <= state.sealedRow) continue;
    state.tail ??= { ...newColumns(INITIAL_CAPACITY), firstRow: row, lastRow: row, sinceMs: pack.arrivalMs };
    const { tail } = state;
    ensureCapacity(tail, n);
    // Columns have some ten readings: a loop is faster than three calls of `set`.
    for (let i = 0; i < n; i++) {
      tail.timeMs[tail.n + i] = column.times[i]!;
      tail.value[tail.n + i] = column.values[i]!;
    }
    if (column.faults) tail.fault.set(column.faults, tail.n);
    tail.n += n;
    tail.lastRow = row;
    put += n;
  }
  return put;
}
