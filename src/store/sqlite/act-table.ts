/**
 * Input that is no reading: acts of people, news of nodes, marks from where a well must be run
 * again, and single values. An act or a piece of news that comes twice is kept once.
 */
import { and, eq, gte, isNull, or, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { act, news, rerunMark, setting } from './schema.ts';
import type { ActRow } from '../store.ts';

export interface ActTable {
  put(row: ActRow): void;
  list(since: { well?: string; fromMs: number }): ActRow[];
  putNews(well: string, atMs: number, body: unknown): void;
  news(well: string, fromMs: number): { atMs: number; body: unknown }[];
  setRerunMark(well: string, fromMs: number | null): void;
  rerunMarks(): { well: string; fromMs: number }[];
  putValue(key: string, getValue: string | null): void;
  getValue(key: string): string | undefined;
}

export function actTable(orm: BetterSQLite3Database): ActTable {
  const oneValue = orm
    .select()
    .from(setting)
    .where(eq(setting.key, sql.placeholder('key')))
    .prepare();
  const putMark = orm
    .insert(rerunMark)
    .values({ well: sql.placeholder('well'), fromMs: sql.placeholder('fromMs') })
    // Two marks of one well are the earlier of them.
    .onConflictDoUpdate({ target: rerunMark.well, set: { fromMs: sql`min(from_ms, excluded.from_ms)` } })
    .prepare();

  const putOne = orm
    .insert(setting)
    .values({ key: sql.placeholder('key'), value: sql.placeholder('value') })
    .onConflictDoUpdate({ target: setting.key, set: { value: sql`excluded.value` } })
    .prepare();

  return {
    put(row) {
      orm
        .insert(act)
        .values({ id: row.id, atMs: row.atMs, well: row.well ?? null, row })
        .onConflictDoNothing()
        .run();
    },
    // Acts without a well (a calibration of a node, the server's absence) concern every well.
    list: ({ well, fromMs }) =>
      orm
        .select()
        .from(act)
        .where(
          and(
            gte(act.atMs, fromMs),
            well === undefined ? undefined : or(eq(act.well, well), isNull(act.well)),
          ),
        )
        .orderBy(act.atMs, sql`rowid`)
        .all()
        .map(({ row }) => row),
    putNews(well, atMs, body) {
      orm
        .insert(news)
        .values({ well, atMs, body: JSON.stringify(body) })
        .onConflictDoNothing()
        .run();
    },
    news: (well, fromMs) =>
      orm
        .select()
        .from(news)
        .where(and(eq(news.well, well), gte(news.atMs, fromMs)))
        .orderBy(news.atMs, sql`rowid`)
        .all()
        .map((found) => ({ atMs: found.atMs, body: JSON.parse(found.body) as unknown })),
    setRerunMark(well, fromMs) {
      if (fromMs === null) orm.delete(rerunMark).where(eq(rerunMark.well, well)).run();
      else putMark.run({ well, fromMs });
    },
    rerunMarks: () => orm.select().from(rerunMark).orderBy(rerunMark.well).all(),
    putValue(key, value) {
      if (value === null) orm.delete(setting).where(eq(setting.key, key)).run();
      else putOne.run({ key, value });
    },
    getValue: (key) => oneValue.get({ key })?.value,
  };
}
