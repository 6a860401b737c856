/**
 * The past of wells as another Stillwell kept it. It stands apart from what the engine makes here: a run over late readings forgets and
 * makes again what it made, and it could not make this again.
 */
import { and, eq, gte, lt } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { handed } from './schema.ts';
import type { HandedRow } from './store.ts';

export interface HandedTable {
  put(row: HandedRow): void;
  list(kind: HandedRow['kind'], well?: string, window?: { fromMs: number; toMs: number }): HandedRow[];
  wells(): string[];
}

export function handedTable(orm: BetterSQLite3Database): HandedTable {
  return {
    put: (row) =>
      void orm
        .insert(handed)
        .values(row)
        .onConflictDoUpdate({
          target: [handed.well, handed.kind, handed.key],
          set: { atMs: row.atMs, row: row.row },
        })
        .run(),
    list: (kind, well, window) =>
      orm
        .select()
        .from(handed)
        .where(
          and(
            eq(handed.kind, kind),
            well === undefined ? undefined : eq(handed.well, well),
            window && gte(handed.atMs, window.fromMs),
            window && lt(handed.atMs, window.toMs),
          ),
        )
        .orderBy(handed.atMs, handed.key)
        .all(),
    wells: () =>
      orm
        .selectDistinct({ well: handed.well })
        .from(handed)
        .orderBy(handed.well)
        .all()
        .map((row) => row.well),
  };
}
