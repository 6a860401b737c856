/**
 * The tables, for drizzle-kit as well as for queries (those that only it reads are marked public).
 * Columns are what is asked by; the rest of a row is kept as JSON in the shape of the interface
 * (../store.ts), so that a field added there needs no migration. Times are Unix ms. Readings are
 * never a row each: they are in `journal` until they are sealed into `block`.
 */
import { blob, index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import type {
  ActRow,
  AlarmRow,
  CredentialRow,
  CycleRow,
  ImportedRow,
  NodeRow,
  NoticeRow,
  RefusedRow,
} from '../store.ts';

/**
 * All packs of one commit (../series/journal-codec.ts). Ids only grow, also when all rows are gone.
 * @public
 */
export const journal = sqliteTable('journal', {
  id: integer('id').primaryKey(),
  body: blob('body', { mode: 'buffer' }).notNull(),
});

/**
 * One channel of one node; `sealedRow` is the last journal row whose readings of it are in blocks.
 * @public
 */
export const series = sqliteTable(
  'series',
  {
    id: integer('id').primaryKey(),
    node: text('node').notNull(),
    channel: text('channel').notNull(),
    sealedRow: integer('sealed_row').notNull(),
  },
  (table) => [uniqueIndex('series_name').on(table.node, table.channel)],
);

/**
 * A stretch of one series (../series/block-codec.ts). `level` 0 is fresh and short, 1 is merged and
 * long. `summary` stands before `body` so that a chart of a year does not touch the pages of the
 * readings. Both ends belong to the block. @public
 */
export const block = sqliteTable(
  'block',
  {
    id: integer('id').primaryKey(),
    series: integer('series').notNull(),
    level: integer('level').notNull(),
    fromMs: integer('from_ms').notNull(),
    toMs: integer('to_ms').notNull(),
    n: integer('n').notNull(),
    summary: blob('summary', { mode: 'buffer' }).notNull(),
    body: blob('body', { mode: 'buffer' }).notNull(),
  },
  (table) => [index('block_place').on(table.series, table.fromMs, table.toMs)],
);

/** Where a node's wrong clock was overruled: readings from here on are a new segment. @public */
export const clockStep = sqliteTable(
  'clock_step',
  { node: text('node').notNull(), atMs: integer('at_ms').notNull() },
  (table) => [primaryKey({ columns: [table.node, table.atMs] })],
);

/**
 * `savedRow` and `savedPacks`: the saved state holds all rows before, and the first packs of that
 * row.
 */
export const node = sqliteTable('node', {
  node: text('node').primaryKey(),
  savedRow: integer('saved_row').notNull(),
  savedPacks: integer('saved_packs').notNull(),
  row: text('row', { mode: 'json' }).$type<NodeRow>().notNull(),
});

export const credential = sqliteTable('credential', {
  node: text('node').primaryKey(),
  row: text('row', { mode: 'json' }).$type<CredentialRow>().notNull(),
});

export const act = sqliteTable(
  'act',
  {
    id: text('id').primaryKey(),
    atMs: integer('at_ms').notNull(),
    well: text('well'),
    row: text('row', { mode: 'json' }).$type<ActRow>().notNull(),
  },
  (table) => [index('act_time').on(table.atMs)],
);

/** What people wrote down of a well (src/logbook/). */
export const entry = sqliteTable(
  'entry',
  {
    id: text('id').primaryKey(),
    well: text('well').notNull(),
    createdMs: integer('made_ms').notNull(),
    row: text('row', { mode: 'json' }).$type<Entry>().notNull(),
  },
  (table) => [index('entry_well').on(table.well, table.createdMs)],
);

/**
 * What another Stillwell handed over of a well's past: nothing here makes it again, so nothing here
 * forgets it.
 */
export const imported = sqliteTable(
  'handed',
  {
    well: text('well').notNull(),
    kind: text('kind').$type<ImportedRow['kind']>().notNull(),
    key: text('key').notNull(),
    atMs: integer('at_ms').notNull(),
    row: text('row', { mode: 'json' }).$type<unknown>().notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.well, table.kind, table.key] }),
    index('handed_time').on(table.well, table.kind, table.atMs),
  ],
);

/** The same news of the same moment is one row. */
export const news = sqliteTable(
  'news',
  { well: text('well').notNull(), atMs: integer('at_ms').notNull(), body: text('body').notNull() },
  (table) => [primaryKey({ columns: [table.well, table.atMs, table.body] })],
);

export const cycle = sqliteTable(
  'cycle',
  {
    well: text('well').notNull(),
    pump: text('pump').notNull(),
    startedMs: integer('started_ms').notNull(),
    stoppedMs: integer('stopped_ms').notNull(),
    row: text('row', { mode: 'json' }).$type<CycleRow>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.well, table.startedMs, table.pump] })],
);

/** `pump` is empty for the day of a whole well. */
export const day = sqliteTable(
  'day',
  {
    well: text('well').notNull(),
    pump: text('pump').notNull(),
    date: text('date').notNull(),
    endedMs: integer('ended_ms').notNull(),
    row: text('row', { mode: 'json' }).$type<DayEvent>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.well, table.date, table.pump] })],
);

export const baseline = sqliteTable(
  'baseline',
  {
    well: text('well').notNull(),
    atMs: integer('at_ms').notNull(),
    pump: text('pump').notNull(),
    row: text('row', { mode: 'json' }).$type<BaselineEvent>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.well, table.atMs, table.pump] })],
);

/** `endedMs`: when it cleared or was withdrawn; null while it stands. */
export const alarm = sqliteTable(
  'alarm',
  {
    id: text('id').primaryKey(),
    well: text('well').notNull(),
    sinceMs: integer('since_ms').notNull(),
    endedMs: integer('ended_ms'),
    row: text('row', { mode: 'json' }).$type<AlarmRow>().notNull(),
  },
  (table) => [index('alarm_well').on(table.well, table.sinceMs), index('alarm_ended').on(table.endedMs)],
);

export const notice = sqliteTable(
  'notice',
  {
    id: text('id').primaryKey(),
    state: text('state').$type<NoticeRow['state']>().notNull(),
    dueMs: integer('due_ms').notNull(),
    tries: integer('tries').notNull(),
    row: text('row', { mode: 'json' }).$type<NoticeRow>().notNull(),
  },
  (table) => [index('notice_due').on(table.state, table.dueMs)],
);

/** Counted for ever; the last ones are kept whole in `refused`. */
export const refusedCount = sqliteTable('refused_count', {
  reason: text('reason').primaryKey(),
  count: integer('count').notNull(),
  lastMs: integer('last_ms').notNull(),
});

export const refused = sqliteTable('refused', {
  id: integer('id').primaryKey(),
  row: text('row', { mode: 'json' }).$type<RefusedRow>().notNull(),
});

/** Engine states, as they were given. @public */
export const snapshot = sqliteTable(
  'snapshot',
  {
    well: text('well').notNull(),
    atMs: integer('at_ms').notNull(),
    state: blob('state', { mode: 'buffer' }).notNull(),
  },
  (table) => [primaryKey({ columns: [table.well, table.atMs] })],
);

export const rerunMark = sqliteTable('rerun_mark', {
  well: text('well').primaryKey(),
  fromMs: integer('from_ms').notNull(),
});

export const setting = sqliteTable('value', {
  key: text('key').primaryKey(),
  value: text('value').notNull(),
});
