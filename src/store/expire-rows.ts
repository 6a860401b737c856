/**
 * How long rows are kept that only grow. Acts and entries of people are never deleted, nor what
 * another Stillwell handed over; nothing that an active alarm, a notice still to be sent or a run
 * over late data needs is deleted either. Each statement finds its rows by an index, a batch at a
 * time, so that a table of ten years is not read through for the few rows that are due.
 */
import type { Database } from 'better-sqlite3';
import { DAY_MS } from '../../shared/units/duration.ts';

export interface Retention {
  /** Readings, and what only explains readings. */
  readingsDays: number;
  /** Cycles, days, baselines, ended alarms and notices that were sent or given up. */
  cyclesDays: number;
  /** Refused messages; their counts stay. */
  refusedDays: number;
}

interface Rule {
  days: keyof Retention;
  table: string;
  /** The first column of the primary key, where the rows are found by it and then by time. */
  per?: 'well' | 'node';
  due: string;
}

const RULES: readonly Rule[] = [
  { days: 'cyclesDays', table: 'cycle', per: 'well', due: 'started_ms < @ms' },
  { days: 'cyclesDays', table: 'day', per: 'well', due: "date < date(@ms / 1000, 'unixepoch')" },
  // The newest baseline of a pump is what it is compared with, however old it is.
  {
    days: 'cyclesDays',
    table: 'baseline',
    per: 'well',
    due: `at_ms < @ms AND at_ms < (SELECT max(at_ms) FROM baseline newer WHERE newer.well = row.well AND newer.pump = row.pump)`,
  },
  // A notice that is still to be sent needs its alarm.
  {
    days: 'cyclesDays',
    table: 'alarm',
    due: `ended_ms < @ms AND NOT EXISTS
      (SELECT 1 FROM notice WHERE state = 'due' AND json_extract(notice.row, '$.alarmId') = row.id)`,
  },
  { days: 'cyclesDays', table: 'notice', due: "state IN ('sent', 'given-up') AND due_ms < @ms" },
  // Late readings run a well again from a snapshot, with the news since then.
  {
    days: 'readingsDays',
    table: 'news',
    per: 'well',
    due: 'at_ms < @ms AND at_ms < (SELECT max(at_ms) FROM snapshot WHERE snapshot.well = row.well)',
  },
  // A step parts readings before it from those after it; without readings it parts nothing.
  { days: 'readingsDays', table: 'clock_step', per: 'node', due: 'at_ms < @ms' },
  { days: 'refusedDays', table: 'refused', due: "json_extract(row.row, '$.atMs') < @ms" },
];

/** Deletes up to a batch of each kind of row. Returns whether more is due. */
export function expireRows(db: Database, retention: Retention, nowMs: number, batch: number): boolean {
  const changes = db.transaction(() =>
    RULES.map((rule) => {
      const ms = nowMs - retention[rule.days] * DAY_MS;
      return db.prepare(deleteStatement(rule)).run({ ms, batch }).changes;
    }),
  )();
  return changes.some((count) => count === batch);
}

/** With `per`, the keys are listed one by one from the index, and each key's rows by time. */
function deleteStatement({ table, per, due }: Rule): string {
  if (per === undefined)
    return `DELETE FROM ${table} WHERE rowid IN (SELECT row.rowid FROM ${table} row WHERE ${due} LIMIT @batch)`;
  return `WITH RECURSIVE keys (key) AS (
      SELECT min(${per}) FROM ${table}
      UNION ALL
      SELECT (SELECT min(${per}) FROM ${table} WHERE ${per} > keys.key) FROM keys WHERE keys.key IS NOT NULL
    )
    DELETE FROM ${table} WHERE rowid IN
      (SELECT row.rowid FROM keys JOIN ${table} row ON row.${per} = keys.key WHERE ${due} LIMIT @batch)`;
}
