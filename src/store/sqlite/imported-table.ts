/**
 * The past of wells as another Stillwell kept it. It stands apart from what the engine makes here:
 * a run over late readings forgets and makes again what it made, and it could not make this again.
 */
import { and, eq, gte, lt } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { imported } from './schema.ts';
import type { ImportedRow } from '../store.ts';

export interface ImportedTable {
  put(row: ImportedRow): void;
  list(kind: ImportedRow['kind'], well?: string, window?: { fromMs: number; toMs: number }): ImportedRow[];
  /** Of every kind, in the order of `list`. */
  past(well: string): ImportedRow[];
  wells(): string[];
}

export function importedTable(orm: BetterSQLite3Database): ImportedTable {
  return {
    put: (row) =>
      void orm
        .insert(imported)
        .values(row)
        .onConflictDoUpdate({
          target: [imported.well, imported.kind, imported.key],
          set: { atMs: row.atMs, row: row.row },
        })
        .run(),
    list: (kind, well, window) =>
      orm
        .select()
        .from(imported)
        .where(
          and(
            eq(imported.kind, kind),
            well === undefined ? undefined : eq(imported.well, well),
            window && gte(imported.atMs, window.fromMs),
            window && lt(imported.atMs, window.toMs),
          ),
        )
        .orderBy(imported.atMs, imported.key)
        .all(),
    past: (well) =>
      orm.select().from(imported).where(eq(imported.well, well)).orderBy(imported.atMs, imported.key).all(),
    wells: () =>
      orm
        .selectDistinct({ well: imported.well })
        .from(imported)
        .orderBy(imported.well)
        .all()
        .map((row) => row.well),
  };
}
