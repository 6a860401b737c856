/**
 * What the store does when there is time, in bites of one transaction each: seal tails, merge blocks, drop journal rows that nobody
 * needs, thin snapshots, let go of old readings, give free pages back. Memory changes only after the transaction is through, so a
 * bite that fails (disk full) has done nothing.
 */
import { firstNeeded } from './journal.ts';
import type { SnapshotTable } from './keep-snapshots.ts';
import { mergeSeries, mustMerge, mustSeal, sealTail } from './seal.ts';
import type { Shelf } from './shelf.ts';
import type { SeriesState } from './tails.ts';

export interface Housekeeping {
  shelf: Shelf;
  snapshots: SnapshotTable;
  readingsDays: number;
  /** Snapshots put since the well's were last thinned. */
  unthinned: Map<string, number>;
  /** Retention is looked at once an hour, and again while more waits. */
  expireAfterMs: number;
}

/** Tails sealed in one transaction: one wait for the disk for all of them, yet some ten milliseconds at most. */
const SEAL_AT_ONCE = 16;
const TRIM_AT_ONCE = 2_000;
const EXPIRE_AT_ONCE = 200;
const THIN_AFTER = 4;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Free pages up to this share stay in the file: the journal needs them again soon. */
const FREE_SHARE = 1 / 200;
const FREE_PAGES = 32;
const VACUUM_PAGES = 512;

export function sealTails(shelf: Shelf, states: readonly SeriesState[]): void {
  const insert = shelf.db.prepare('INSERT INTO series (id, node, channel, sealed_row) VALUES (?, ?, ?, ?)');
  const update = shelf.db.prepare('UPDATE series SET sealed_row = ? WHERE id = ?');
  const done: (() => void)[] = [];
  let nextId = shelf.nextSeriesId;
  shelf.db.transaction(() => {
    for (const state of states) {
      const { tail } = state;
      if (!tail) continue;
      const id = state.id || nextId++;
      if (state.id === 0) insert.run(id, state.node, state.channel, tail.lastRow);
      else update.run(tail.lastRow, id);
      const made = sealTail(id, tail, shelf.blocks);
      const readings = made.reduce((sum, place) => sum + place.n, 0);
      done.push(() => {
        state.id = id;
        state.sealedRow = tail.lastRow;
        delete state.tail;
        state.freshBlocks += made.length;
        state.freshReadings += readings;
        shelf.openReadings -= tail.n;
        shelf.sealedReadings += readings;
      });
    }
  })();
  shelf.nextSeriesId = nextId;
  for (const apply of done) apply();
}

function merge(shelf: Shelf, state: SeriesState): void {
  const doubles = shelf.db.transaction(() => mergeSeries(state.id, shelf.blocks))();
  state.freshBlocks = 0;
  state.freshReadings = 0;
  shelf.sealedReadings -= doubles;
}

function allSeries(shelf: Shelf): SeriesState[] {
  return [...shelf.series.values()].flatMap((channels) => [...channels.values()]);
}

function sealBite({ shelf }: Housekeeping, nowMs: number): boolean {
  const due = allSeries(shelf).filter((state) => mustSeal(state, nowMs));
  if (due.length === 0) return false;
  sealTails(shelf, due.slice(0, SEAL_AT_ONCE));
  return true;
}

function mergeBite({ shelf }: Housekeeping): boolean {
  const due = allSeries(shelf).find(mustMerge);
  if (due) merge(shelf, due);
  return due !== undefined;
}

function trimBite({ shelf }: Housekeeping, nowMs: number): boolean {
  return shelf.journal.trim(firstNeeded(shelf.journal, shelf.series, nowMs), TRIM_AT_ONCE);
}

function thinBite(keeping: Housekeeping): boolean {
  for (const [well, count] of keeping.unthinned) {
    if (count < THIN_AFTER) continue;
    keeping.shelf.db.transaction(() => keeping.snapshots.thin(well))();
    keeping.unthinned.delete(well);
    return true;
  }
  return false;
}

function expireBite(keeping: Housekeeping, nowMs: number): boolean {
  if (nowMs < keeping.expireAfterMs) return false;
  const { shelf, readingsDays } = keeping;
  const gone = shelf.blocks.expire(nowMs - readingsDays * DAY_MS, EXPIRE_AT_ONCE);
  if (gone > 0) {
    shelf.sealedReadings = shelf.blocks.readings();
    for (const state of allSeries(shelf)) {
      state.freshBlocks = 0;
      state.freshReadings = 0;
    }
    const byId = new Map(allSeries(shelf).map((state) => [state.id, state]));
    for (const fresh of shelf.blocks.fresh()) {
      Object.assign(byId.get(fresh.series) ?? {}, {
        freshBlocks: fresh.blocks,
        freshReadings: fresh.readings,
      });
    }
  }
  if (gone === EXPIRE_AT_ONCE) return true;
  keeping.expireAfterMs = nowMs + HOUR_MS;
  return false;
}

function vacuumBite({ shelf }: Housekeeping): boolean {
  const free = Number(shelf.db.pragma('freelist_count', { simple: true }));
  const all = Number(shelf.db.pragma('page_count', { simple: true }));
  if (free <= FREE_PAGES + all * FREE_SHARE) return false;
  shelf.db.pragma(`incremental_vacuum(${VACUUM_PAGES})`);
  return true;
}

/**
 * Letting go comes first, since on a full disk nothing else can be done. Sealing frees memory, merging and trimming free pages, the
 * last gives them back.
 */
const BITES = [expireBite, sealBite, mergeBite, trimBite, thinBite, vacuumBite] as const;

/** Bites until nothing waits or the budget is spent. Returns whether more waits. `clock` is for tests. */
export function tidy(keeping: Housekeeping, nowMs: number, budgetMs: number, clock: () => number): boolean {
  const endMs = clock() + budgetMs;
  for (const bite of BITES) {
    while (bite(keeping, nowMs)) if (clock() >= endMs) return true;
  }
  return false;
}
