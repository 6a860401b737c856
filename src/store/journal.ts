/**
 * The journal: one row of packs a commit, first in, and gone when nobody needs it any more. Two
 * need it: the tails until their readings are in blocks, and node state (./store.ts,
 * `packsSinceSave`) until it was saved after the row. Rows are numbered by a counter that never
 * goes back, because what is sealed and what is saved is said in row numbers.
 */
import { DAY_MS } from '../../shared/units/duration.ts';
import type { PlacedPack } from '../core/readings/placed-pack.ts';
import type { Db } from './sqlite/database.ts';
import type { SavedPosition } from './sqlite/node-table.ts';
import { decodeJournalRow } from './series/journal-codec.ts';
import { damagedError } from './store-error.ts';
import type { SeriesMap } from './series/tails.ts';

export interface Journal {
  lastRow: number;
  /** How far each node's saved state reaches. */
  savedPositions: Map<string, SavedPosition>;
  /**
   * The first row with packs that the node's saved state does not hold. Absent where it holds all.
   */
  firstUnsaved: Map<string, { row: number; arrivalMs: number }>;
  insert(row: number, body: Buffer): void;
  /** Rows after `row`, in order, decoded. */
  rowsAfter(row: number): Iterable<{ row: number; packs: PlacedPack[] }>;
  /** Drops up to `limit` rows below `row`. Returns whether more are left. */
  trim(row: number, limit: number): boolean;
}

/** Rows are read in small batches: an open iteration would keep the database from anything else. */
const BATCH = 32;

export function openJournal(db: Db, path: string, saved: Map<string, SavedPosition>): Journal {
  const insert = db.prepare<[number, Buffer]>('INSERT INTO journal (id, body) VALUES (?, ?)');
  const some = db.prepare<[number, number], { id: number; body: Buffer }>(
    'SELECT id, body FROM journal WHERE id > ? ORDER BY id LIMIT ?',
  );
  const first = db.prepare<[], number | null>('SELECT min(id) FROM journal').pluck();
  const drop = db.prepare<[number]>('DELETE FROM journal WHERE id < ?');
  const last = db
    .prepare<[], number>(
      `SELECT max((SELECT coalesce(max(id), 0) FROM journal), (SELECT coalesce(max(sealed_row), 0) FROM series),
        (SELECT coalesce(max(saved_row), 0) FROM node))`,
    )
    .pluck();

  function* rowsAfter(row: number): Generator<{ row: number; packs: PlacedPack[] }> {
    let at = row;
    for (;;) {
      const batch = some.all(at, BATCH);
      for (const { id, body } of batch) yield { row: id, packs: decodeRow(body, path) };
      const end = batch.at(-1);
      if (!end) return;
      at = end.id;
    }
  }

  return {
    lastRow: last.get() ?? 0,
    savedPositions: saved,
    firstUnsaved: new Map(),
    insert: (row, body) => void insert.run(row, body),
    rowsAfter,
    trim(row, limit) {
      const start = first.get();
      if (start === undefined || start === null || start >= row) return false;
      const end = Math.min(row, start + limit);
      drop.run(end);
      return end < row;
    },
  };
}

function decodeRow(body: Buffer, path: string): PlacedPack[] {
  try {
    return decodeJournalRow(body);
  } catch (error) {
    throw damagedError('readJournal', path, error);
  }
}

/** Whether the pack at this place came after the node's state was saved. */
export function isUnsaved(saved: SavedPosition | undefined, row: number, index: number): boolean {
  return !saved || row > saved.row || (row === saved.row && index >= saved.packs);
}

/** Notes a committed pack that the node's saved state does not hold. */
export function markUnsaved(journal: Journal, { node, arrivalMs }: PlacedPack, row: number): void {
  if (!journal.firstUnsaved.has(node)) journal.firstUnsaved.set(node, { row, arrivalMs });
}

/** Every pack since its node's state was saved, in the order they came. */
export function* unsavedPacks(journal: Journal): Generator<PlacedPack> {
  const saved = new Map(journal.savedPositions);
  const first = Math.min(...[...journal.firstUnsaved.values()].map(({ row }) => row));
  if (!Number.isFinite(first)) return;
  for (const { row, packs } of journal.rowsAfter(first - 1)) {
    for (const [index, pack] of packs.entries()) {
      if (isUnsaved(saved.get(pack.node), row, index)) yield pack;
    }
  }
}

/**
 * Node state is saved every ten minutes: a node that has had none for a day does not hold the
 * journal any longer.
 */
const MAX_UNSAVED_MS = DAY_MS;

/** The first row that somebody still needs; all below may go. */
export function firstNeededRow(journal: Journal, map: SeriesMap, nowMs: number): number {
  let row = journal.lastRow + 1;
  for (const [node, unsaved] of journal.firstUnsaved) {
    const everSaved = (journal.savedPositions.get(node)?.row ?? 0) > 0;
    if (everSaved || nowMs - unsaved.arrivalMs < MAX_UNSAVED_MS) row = Math.min(row, unsaved.row);
  }
  for (const channels of map.values()) {
    for (const { tail } of channels.values()) if (tail) row = Math.min(row, tail.firstRow);
  }
  return row;
}
