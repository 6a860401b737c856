/**
 * Alarms and the outbox of notices. A notice goes forward only: told once, it is never due again,
 * whatever is made anew after a crash or a run over late readings.
 */
import { and, asc, eq, gte, isNotNull, isNull, lte, or, sql } from 'drizzle-orm';
import type { BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import { withoutSentence, withSentence } from '../../core/alarms/lifecycle/alarm-event.ts';
import { alarm, notice } from './schema.ts';
import type { AlarmRow, NoticeRow, Store } from '../store.ts';

export interface AlarmTable {
  put(row: AlarmRow): void;
  list(filter: Parameters<Store['alarms']>[0]): AlarmRow[];
  putNotice(row: NoticeRow): void;
  notices(filter: Parameters<Store['notices']>[0]): NoticeRow[];
}

export function alarmTable(orm: BetterSQLite3Database): AlarmTable {
  const { writeAlarm, writeNotice } = prepareWrites(orm);

  return {
    put: (row) =>
      void writeAlarm.run({
        id: row.id,
        well: row.well,
        sinceMs: row.sinceMs,
        endedMs: row.withdrawnMs ?? row.clearedMs ?? null,
        row: { ...row, event: withoutSentence(row.event) },
      }),
    list({ well, fromMs, active }) {
      const stands = isNull(alarm.endedMs);
      return orm
        .select()
        .from(alarm)
        .where(
          and(
            well === undefined ? undefined : eq(alarm.well, well),
            fromMs === undefined ? undefined : or(stands, gte(alarm.endedMs, fromMs)),
            active === undefined ? undefined : active ? stands : isNotNull(alarm.endedMs),
          ),
        )
        .orderBy(alarm.sinceMs, alarm.id)
        .all()
        .map(({ row }) => ({ ...row, event: withSentence(row.event) }));
    },
    putNotice: (row) =>
      void writeNotice.run({ id: row.id, state: row.state, dueMs: row.dueMs, tries: row.tries, row }),
    notices: ({ state, dueBeforeMs, limit }) =>
      orm
        .select()
        .from(notice)
        .where(
          and(
            state === undefined ? undefined : eq(notice.state, state),
            dueBeforeMs === undefined ? undefined : lte(notice.dueMs, dueBeforeMs),
          ),
        )
        .orderBy(asc(notice.dueMs), asc(notice.id))
        .limit(limit ?? -1)
        .all()
        .map(({ row }) => row),
  };
}

/** Compiled once. A notice that was tried less often never replaces one tried more often. */
function prepareWrites(orm: BetterSQLite3Database) {
  const writeAlarm = orm
    .insert(alarm)
    .values({
      id: sql.placeholder('id'),
      well: sql.placeholder('well'),
      sinceMs: sql.placeholder('sinceMs'),
      endedMs: sql.placeholder('endedMs'),
      row: sql.placeholder('row'),
    })
    .onConflictDoUpdate({
      target: alarm.id,
      set: { sinceMs: sql`excluded.since_ms`, endedMs: sql`excluded.ended_ms`, row: sql`excluded.row` },
    })
    .prepare();
  const writeNotice = orm
    .insert(notice)
    .values({
      id: sql.placeholder('id'),
      state: sql.placeholder('state'),
      dueMs: sql.placeholder('dueMs'),
      tries: sql.placeholder('tries'),
      row: sql.placeholder('row'),
    })
    .onConflictDoUpdate({
      target: notice.id,
      set: {
        state: sql`excluded.state`,
        dueMs: sql`excluded.due_ms`,
        tries: sql`excluded.tries`,
        row: sql`excluded.row`,
      },
      setWhere: sql`${notice.state} = 'due' AND excluded.tries >= ${notice.tries}`,
    })
    .prepare();
  return { writeAlarm, writeNotice };
}
