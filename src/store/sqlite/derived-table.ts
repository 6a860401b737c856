/**
 * What the engine derives and can make again: cycles, local days, baselines. A row is named by what
 * happened (well, pump, moment), so that the same thing derived twice is one row.
 */
import { and, eq, gt, gte, lt, lte, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import { baseline, cycle, day } from './schema.ts';
import type { CycleRow, DerivedRows } from '../store.ts';

export interface DerivedTable {
  putCycle(row: CycleRow): void;
  putDay(event: DayEvent, endedMs: number): void;
  putBaseline(event: BaselineEvent, atMs: number): void;
  deleteFrom(well: string, fromMs: number): void;
  cycles(well: string, fromMs: number, toMs: number): CycleRow[];
  days(well: string, fromMs: number, toMs: number): DayEvent[];
  baselines(well: string): BaselineEvent[];
  all(well: string): DerivedRows;
}

export function derivedTable(orm: BetterSQLite3Database): DerivedTable {
  const { writeCycle, writeDay, writeBaseline } = prepareWrites(orm);

  return {
    putCycle: (made) =>
      void writeCycle.run({
        well: made.event.well,
        pump: made.event.pump,
        atMs: made.startedMs,
        endedMs: made.stoppedMs,
        row: made,
      }),
    putDay: (event, ended) =>
      void writeDay.run({
        well: event.well,
        pump: event.pump ?? '',
        date: event.date,
        endedMs: ended,
        row: event,
      }),
    putBaseline: (event, at) =>
      void writeBaseline.run({ well: event.well, pump: event.pump, atMs: at, row: event }),
    deleteFrom(name, fromMs) {
      orm
        .delete(cycle)
        .where(and(eq(cycle.well, name), gte(cycle.stoppedMs, fromMs)))
        .run();
      orm
        .delete(day)
        .where(and(eq(day.well, name), gte(day.endedMs, fromMs)))
        .run();
      orm
        .delete(baseline)
        .where(and(eq(baseline.well, name), gte(baseline.atMs, fromMs)))
        .run();
    },
    cycles: (name, fromMs, toMs) =>
      orm
        .select()
        .from(cycle)
        .where(and(eq(cycle.well, name), gte(cycle.startedMs, fromMs), lt(cycle.startedMs, toMs)))
        .orderBy(cycle.startedMs, cycle.pump)
        .all()
        .map((found) => found.row),
    days: (name, fromMs, toMs) =>
      orm
        .select()
        .from(day)
        .where(and(eq(day.well, name), gt(day.endedMs, fromMs), lte(day.endedMs, toMs)))
        .orderBy(day.date, day.pump)
        .all()
        .map((found) => found.row),
    baselines: (name) =>
      orm
        .select()
        .from(baseline)
        .where(eq(baseline.well, name))
        .orderBy(baseline.atMs, baseline.pump)
        .all()
        .map((found) => found.row),
    all: (name) => allOf(orm, name),
  };
}

/** One statement a kind of row, compiled once. */
function prepareWrites(orm: BetterSQLite3Database) {
  const well = sql.placeholder('well');
  const pump = sql.placeholder('pump');
  const row = sql.placeholder('row');
  const atMs = sql.placeholder('atMs');
  const endedMs = sql.placeholder('endedMs');
  const writeCycle = orm
    .insert(cycle)
    .values({ well, pump, startedMs: atMs, stoppedMs: endedMs, row })
    .onConflictDoUpdate({
      target: [cycle.well, cycle.startedMs, cycle.pump],
      set: { stoppedMs: sql`excluded.stopped_ms`, row: sql`excluded.row` },
    })
    .prepare();
  const writeDay = orm
    .insert(day)
    .values({ well, pump, date: sql.placeholder('date'), endedMs, row })
    .onConflictDoUpdate({
      target: [day.well, day.date, day.pump],
      set: { endedMs: sql`excluded.ended_ms`, row: sql`excluded.row` },
    })
    .prepare();
  const writeBaseline = orm
    .insert(baseline)
    .values({ well, pump, atMs, row })
    .onConflictDoUpdate({
      target: [baseline.well, baseline.atMs, baseline.pump],
      set: { row: sql`excluded.row` },
    })
    .prepare();
  return { writeCycle, writeDay, writeBaseline };
}

function allOf(orm: BetterSQLite3Database, well: string): DerivedRows {
  const cycles = orm
    .select()
    .from(cycle)
    .where(eq(cycle.well, well))
    .orderBy(cycle.startedMs, cycle.pump)
    .all();
  const days = orm.select().from(day).where(eq(day.well, well)).orderBy(day.date, day.pump).all();
  const baselines = orm
    .select()
    .from(baseline)
    .where(eq(baseline.well, well))
    .orderBy(baseline.atMs, baseline.pump)
    .all();
  return {
    cycles: cycles.map(({ row }) => row),
    days: days.map(({ endedMs, row }) => ({ endedMs, event: row })),
    baselines: baselines.map(({ atMs, row }) => ({ atMs, event: row })),
  };
}
