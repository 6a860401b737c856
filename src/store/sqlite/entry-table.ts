/**
 * What people wrote down of a well: only ever added to. One that comes twice (a packet imported
 * again) is kept once.
 */
import { eq, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { Entry } from '../../../shared/entries/entry.ts';
import { entry } from './schema.ts';

export interface EntryTable {
  put(row: Entry): void;
  list(well?: string): Entry[];
}

export function entryTable(orm: BetterSQLite3Database): EntryTable {
  return {
    put(row) {
      orm
        .insert(entry)
        .values({ id: row.id, well: row.well, createdMs: row.createdMs, row })
        .onConflictDoNothing()
        .run();
    },
    list: (well) =>
      orm
        .select()
        .from(entry)
        .where(well === undefined ? undefined : eq(entry.well, well))
        .orderBy(entry.createdMs, sql`rowid`)
        .all()
        .map(({ row }) => row),
  };
}
