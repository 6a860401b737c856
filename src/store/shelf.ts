/**
 * The readings of all nodes, on disk and in memory: what a commit adds to, what readers look into, what housekeeping puts in order.
 */
import { blockTable } from './blocks.ts';
import type { BlockTable } from './blocks.ts';
import type { Db } from './database.ts';
import { isUnsaved, noteUnsaved, openJournal } from './journal.ts';
import type { Journal } from './journal.ts';
import type { SavedPlace } from './keep-nodes.ts';
import { growTails, seriesOf } from './tails.ts';
import type { SeriesMap, SeriesState } from './tails.ts';

export interface Shelf {
  db: Db;
  path: string;
  blocks: BlockTable;
  journal: Journal;
  series: SeriesMap;
  /** Readings in blocks, and in tails. */
  sealedReadings: number;
  openReadings: number;
  nextSeriesId: number;
}

/** Opens the readings: tails are made again from the journal, passing over what is in blocks already. */
export function openShelf(db: Db, path: string, saved: Map<string, SavedPlace>): Shelf {
  const blocks = blockTable(db, path);
  const shelf: Shelf = {
    db,
    path,
    blocks,
    journal: openJournal(db, path, saved),
    series: new Map(),
    sealedReadings: blocks.readings(),
    openReadings: 0,
    nextSeriesId: 1,
  };
  const byId = new Map<number, SeriesState>();
  const rows = db
    .prepare<[], { id: number; node: string; channel: string; sealedRow: number }>(
      'SELECT id, node, channel, sealed_row AS sealedRow FROM series ORDER BY id',
    )
    .all();
  for (const row of rows) {
    const state = seriesOf(shelf.series, row.node, row.channel);
    state.id = row.id;
    state.sealedRow = row.sealedRow;
    byId.set(row.id, state);
    shelf.nextSeriesId = row.id + 1;
  }
  for (const fresh of blocks.fresh()) {
    const state = byId.get(fresh.series);
    if (!state) continue;
    state.freshBlocks = fresh.blocks;
    state.freshReadings = fresh.readings;
  }
  for (const { row, packs } of shelf.journal.rowsAfter(0)) {
    for (const [index, pack] of packs.entries()) {
      shelf.openReadings += growTails(shelf.series, pack, row);
      if (isUnsaved(saved.get(pack.node), row, index)) noteUnsaved(shelf.journal, pack, row);
    }
  }
  return shelf;
}
