/** What was refused: counted by reason for ever, the last ones kept whole for a look. */
import { desc, notInArray, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { refused, refusedCount } from './schema.ts';
import type { RefusedRow, Store } from '../store.ts';

/** A flood of refusals must not fill the disk, and 200 are enough to see what a node does wrong. */
const MAX_REFUSED = 200;

export interface RefusedTable {
  /** All refusals of one commit at once: a flood of them must not cost a row each. */
  putRefused(rows: readonly RefusedRow[]): void;
  refused(limit: number): Awaited<ReturnType<Store['refused']>>;
}

export function refusedTable(orm: BetterSQLite3Database): RefusedTable {
  return {
    putRefused(rows) {
      const counts = new Map<string, { count: number; lastMs: number }>();
      for (const { reason, atMs } of rows) {
        const old = counts.get(reason);
        counts.set(reason, { count: (old?.count ?? 0) + 1, lastMs: Math.max(old?.lastMs ?? 0, atMs) });
      }
      for (const [reason, { count, lastMs }] of counts) {
        orm
          .insert(refusedCount)
          .values({ reason, count, lastMs })
          .onConflictDoUpdate({
            target: refusedCount.reason,
            set: {
              count: sql`${refusedCount.count} + ${count}`,
              lastMs: sql`max(${refusedCount.lastMs}, ${lastMs})`,
            },
          })
          .run();
      }
      const toKeep = rows.filter((row) => row.countOnly !== true).slice(-MAX_REFUSED);
      if (toKeep.length === 0) return;
      for (const row of toKeep) orm.insert(refused).values({ row }).run();
      const last = orm.select({ id: refused.id }).from(refused).orderBy(desc(refused.id)).limit(MAX_REFUSED);
      orm.delete(refused).where(notInArray(refused.id, last)).run();
    },
    refused: (limit) => ({
      counts: orm.select().from(refusedCount).orderBy(desc(refusedCount.count), refusedCount.reason).all(),
      last: orm
        .select()
        .from(refused)
        .orderBy(desc(refused.id))
        .limit(limit)
        .all()
        .map(({ row }) => row),
    }),
  };
}
