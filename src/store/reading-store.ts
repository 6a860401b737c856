/**
 * The readings of all nodes, on disk and in memory: what a commit adds to, what readers look into,
 * what housekeeping puts in order.
 */
import { blockTable } from './series/block-table.ts';
import type { BlockTable } from './series/block-table.ts';
import type { Db } from './sqlite/database.ts';
import { isUnsaved, markUnsaved, openJournal } from './journal.ts';
import type { Journal } from './journal.ts';
import type { SavedPosition } from './sqlite/node-table.ts';
import { appendToTails, getOrCreateSeries } from './series/tails.ts';
import type { SeriesMap, SeriesState } from './series/tails.ts';

export interface ReadingStore {
  db: Db;
  path: string;
  blocks: BlockTable;
  journal: Journal;
  series: SeriesMap;
  /** Readings in blocks, and in tails. */
  sealedReadings: number;
  unsealedReadings: number;
  nextSeriesId: number;
}

/**
 * Opens the readings: tails are made again from the journal, passing over what is in blocks
 * already.
 */
export function openReadingStore(db: Db, path: string, saved: Map<string, SavedPosition>): ReadingStore {
  const blocks = blockTable(db, path);
  const readingStore: ReadingStore = {
    db,
    path,
    blocks,
    journal: openJournal(db, path, saved),
    series: new Map(),
    sealedReadings: blocks.readings(),
    unsealedReadings: 0,
    nextSeriesId: 1,
  };
  const byId = new Map<number, SeriesState>();
  const rows = db
    .prepare<[], { id: number; node: string; channel: string; sealedRow: number }>(
      'SELECT id, node, channel, sealed_row AS sealedRow FROM series ORDER BY id',
    )
    .all();
  for (const row of rows) {
    const state = getOrCreateSeries(readingStore.series, row.node, row.channel);
    state.id = row.id;
    state.sealedRow = row.sealedRow;
    byId.set(row.id, state);
    readingStore.nextSeriesId = row.id + 1;
  }
  for (const fresh of blocks.unmerged()) {
    const state = byId.get(fresh.series);
    if (!state) continue;
    state.freshBlocks = fresh.blocks;
    state.freshReadings = fresh.readings;
  }
  for (const { row, packs } of readingStore.journal.rowsAfter(0)) {
    for (const [index, pack] of packs.entries()) {
      readingStore.unsealedReadings += appendToTails(readingStore.series, pack, row);
      if (isUnsaved(saved.get(pack.node), row, index)) markUnsaved(readingStore.journal, pack, row);
    }
  }
  return readingStore;
}
