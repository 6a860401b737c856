/**
 * What the store does when there is time, in bites of one transaction each: seal tails, merge
 * blocks, drop journal rows that nobody needs, thin snapshots, let go of old readings, give free
 * pages back. Memory changes only after the transaction is through, so a bite that fails (disk
 * full) has done nothing.
 */
import { DAY_MS, HOUR_MS } from '../../shared/units/duration.ts';
import { expireRows, type Retention } from './expire-rows.ts';
import { firstNeededRow } from './journal.ts';
import type { SnapshotTable } from './sqlite/snapshot-table.ts';
import { mergeSeries, shouldMerge, shouldSeal, sealTail } from './series/seal.ts';
import type { ReadingStore } from './reading-store.ts';
import type { SeriesState } from './series/tails.ts';

export interface Housekeeping {
  readingStore: ReadingStore;
  snapshots: SnapshotTable;
  retention: Retention;
  /** Snapshots put since the well's were last thinned. */
  snapshotsSinceThinning: Map<string, number>;
  /** Retention is looked at once an hour, and again while more waits. */
  nextExpiryMs: number;
}

/**
 * Tails sealed in one transaction: one wait for the disk for all of them, yet some ten milliseconds
 * at most.
 */
const SEAL_BATCH = 16;
const TRIM_BATCH = 2_000;
const EXPIRE_BATCH = 200;
/** Of each table: rows of a few hundred bytes, some milliseconds in all. */
const EXPIRE_ROWS_BATCH = 500;
const THIN_AFTER_SNAPSHOTS = 4;

/** Free pages up to this share stay in the file: the journal needs them again soon. */
const MAX_FREE_FRACTION = 1 / 200;
const MAX_FREE_PAGES = 32;
const VACUUM_PAGES = 512;

export function sealTails(readingStore: ReadingStore, states: readonly SeriesState[]): void {
  const insert = readingStore.db.prepare(
    'INSERT INTO series (id, node, channel, sealed_row) VALUES (?, ?, ?, ?)',
  );
  const update = readingStore.db.prepare('UPDATE series SET sealed_row = ? WHERE id = ?');
  const done: (() => void)[] = [];
  let nextId = readingStore.nextSeriesId;
  readingStore.db.transaction(() => {
    for (const state of states) {
      const { tail } = state;
      if (!tail) continue;
      const id = state.id || nextId++;
      if (state.id === 0) insert.run(id, state.node, state.channel, tail.lastRow);
      else update.run(tail.lastRow, id);
      const made = sealTail(id, tail, readingStore.blocks);
      const readings = made.reduce((sum, place) => sum + place.n, 0);
      done.push(() => {
        state.id = id;
        state.sealedRow = tail.lastRow;
        delete state.tail;
        state.freshBlocks += made.length;
        state.freshReadings += readings;
        readingStore.unsealedReadings -= tail.n;
        readingStore.sealedReadings += readings;
      });
    }
  })();
  readingStore.nextSeriesId = nextId;
  for (const apply of done) apply();
}

function mergeBlocks(readingStore: ReadingStore, state: SeriesState): void {
  const doubles = readingStore.db.transaction(() => mergeSeries(state.id, readingStore.blocks))();
  state.freshBlocks = 0;
  state.freshReadings = 0;
  readingStore.sealedReadings -= doubles;
}

function allSeries(readingStore: ReadingStore): SeriesState[] {
  return [...readingStore.series.values()].flatMap((channels) => [...channels.values()]);
}

function sealStep({ readingStore }: Housekeeping, nowMs: number): boolean {
  const due = allSeries(readingStore).filter((state) => shouldSeal(state, nowMs));
  if (due.length === 0) return false;
  sealTails(readingStore, due.slice(0, SEAL_BATCH));
  return true;
}

function mergeStep({ readingStore }: Housekeeping): boolean {
  const due = allSeries(readingStore).find(shouldMerge);
  if (due) mergeBlocks(readingStore, due);
  return due !== undefined;
}

function trimStep({ readingStore }: Housekeeping, nowMs: number): boolean {
  return readingStore.journal.trim(
    firstNeededRow(readingStore.journal, readingStore.series, nowMs),
    TRIM_BATCH,
  );
}

function thinStep(housekeeping: Housekeeping): boolean {
  for (const [well, count] of housekeeping.snapshotsSinceThinning) {
    if (count < THIN_AFTER_SNAPSHOTS) continue;
    housekeeping.readingStore.db.transaction(() => housekeeping.snapshots.thin(well))();
    housekeeping.snapshotsSinceThinning.delete(well);
    return true;
  }
  return false;
}

function expireStep(housekeeping: Housekeeping, nowMs: number): boolean {
  if (nowMs < housekeeping.nextExpiryMs) return false;
  const { readingStore, retention } = housekeeping;
  const gone = readingStore.blocks.expire(nowMs - retention.readingsDays * DAY_MS, EXPIRE_BATCH);
  if (gone > 0) {
    readingStore.sealedReadings = readingStore.blocks.readings();
    for (const state of allSeries(readingStore)) {
      state.freshBlocks = 0;
      state.freshReadings = 0;
    }
    const byId = new Map(allSeries(readingStore).map((state) => [state.id, state]));
    for (const fresh of readingStore.blocks.unmerged()) {
      Object.assign(byId.get(fresh.series) ?? {}, {
        freshBlocks: fresh.blocks,
        freshReadings: fresh.readings,
      });
    }
  }
  const moreRows = expireRows(readingStore.db, retention, nowMs, EXPIRE_ROWS_BATCH);
  if (gone === EXPIRE_BATCH || moreRows) return true;
  housekeeping.nextExpiryMs = nowMs + HOUR_MS;
  return false;
}

function vacuumStep({ readingStore }: Housekeeping): boolean {
  const free = Number(readingStore.db.pragma('freelist_count', { simple: true }));
  const all = Number(readingStore.db.pragma('page_count', { simple: true }));
  if (free <= MAX_FREE_PAGES + all * MAX_FREE_FRACTION) return false;
  readingStore.db.pragma(`incremental_vacuum(${VACUUM_PAGES})`);
  return true;
}

/**
 * Letting go comes first, since on a full disk nothing else can be done. Sealing frees memory,
 * merging and trimming free pages, the last gives them back.
 */
const STEPS = [expireStep, sealStep, mergeStep, trimStep, thinStep, vacuumStep] as const;

/**
 * Bites until nothing waits or the budget is spent. Returns whether more waits. `clock` is for
 * tests.
 */
export function maintain(
  housekeeping: Housekeeping,
  nowMs: number,
  budgetMs: number,
  clock: () => number,
): boolean {
  const endMs = clock() + budgetMs;
  for (const step of STEPS) {
    while (step(housekeeping, nowMs)) if (clock() >= endMs) return true;
  }
  return false;
}
