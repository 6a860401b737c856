/**
 * The table of sealed blocks: prepared statements and no query builder, because a chart reads
 * hundreds of them and a month of readings must come in 100 ms.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Db } from '../sqlite/database.ts';
import { decodeBlock, encodeBlock } from './block-codec.ts';
import { decodeSummary, encodeSummary } from './summary.ts';
import type { Bucket } from './summary.ts';
import { damagedError } from '../store-error.ts';
import type { Series } from '../store.ts';

/** A block without its readings. Both ends belong to it. */
export interface BlockInfo {
  id: number;
  level: number;
  fromMs: number;
  toMs: number;
  n: number;
}

/**
 * A block spans no more than this, so that a search backwards has an end and retention can let go
 * of whole blocks.
 */
export const MAX_SPAN_MS = 31 * DAY_MS;

/** A fresh block has none: it is soon merged, and quickly read till then. */
const NO_SUMMARY = Buffer.alloc(0);

export interface BlockTable {
  add(series: number, level: number, readings: Series): BlockInfo;
  delete(id: number): void;
  /** Blocks of a series that touch [fromMs, toMs), by their start. */
  overlapping(series: number, fromMs: number, toMs: number): BlockInfo[];
  /** @throws StoreError where the block does not read back. */
  read(id: number): Series;
  /** Of a block of level 1. */
  summary(id: number): Bucket[];
  /** Per series: how many blocks of level 0 there are, and readings in them. */
  unmerged(): { series: number; blocks: number; readings: number }[];
  readings(): number;
  /** Drops blocks that ended before `beforeMs`, at most `limit`. Returns how many went. */
  expire(beforeMs: number, limit: number): number;
}

export function blockTable(db: Db, path: string): BlockTable {
  const add = db.prepare<[number, number, number, number, number, Buffer, Buffer]>(
    'INSERT INTO block (series, level, from_ms, to_ms, n, summary, body) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const drop = db.prepare<[number]>('DELETE FROM block WHERE id = ?');
  const touching = db.prepare<[number, number, number, number], BlockInfo>(
    `SELECT id, level, from_ms AS fromMs, to_ms AS toMs, n FROM block
     WHERE series = ? AND from_ms > ? AND from_ms < ? AND to_ms >= ? ORDER BY from_ms, id`,
  );
  const body = db.prepare<[number], Buffer>('SELECT body FROM block WHERE id = ?').pluck();
  const summary = db.prepare<[number], Buffer>('SELECT summary FROM block WHERE id = ?').pluck();
  const fresh = db.prepare<[], { series: number; blocks: number; readings: number }>(
    'SELECT series, count(*) AS blocks, sum(n) AS readings FROM block WHERE level = 0 GROUP BY series',
  );
  const readings = db.prepare<[], number>('SELECT coalesce(sum(n), 0) FROM block').pluck();
  const expire = db.prepare<[number, number]>(
    'DELETE FROM block WHERE id IN (SELECT id FROM block WHERE to_ms < ? LIMIT ?)',
  );

  function whole<T>(bytes: Buffer | undefined, decode: (bytes: Buffer) => T): T {
    try {
      if (!bytes) throw new RangeError('Cannot read block: it is gone');
      return decode(bytes);
    } catch (error) {
      throw damagedError('readReadings', path, error);
    }
  }

  return {
    add(series, level, columns) {
      const fromMs = columns.timeMs[0] ?? 0;
      const toMs = columns.timeMs[columns.n - 1] ?? 0;
      const { lastInsertRowid } = add.run(
        series,
        level,
        fromMs,
        toMs,
        columns.n,
        level === 0 ? NO_SUMMARY : encodeSummary(columns),
        encodeBlock(columns),
      );
      return { id: Number(lastInsertRowid), level, fromMs, toMs, n: columns.n };
    },
    delete: (id) => void drop.run(id),
    overlapping: (series, fromMs, toMs) => touching.all(series, fromMs - MAX_SPAN_MS - 1, toMs, fromMs),
    read: (id) => whole(body.get(id), decodeBlock),
    summary: (id) => whole(summary.get(id), decodeSummary),
    unmerged: () => fresh.all(),
    readings: () => readings.get() ?? 0,
    expire: (beforeMs, limit) => expire.run(beforeMs, limit).changes,
  };
}
