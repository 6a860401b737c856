/**
 * The outbox: rows that are due are sent, once to each, and marked. What is due is in the store, so a restart forgets nothing; between
 * sending and marking lies an instant in which a crash makes one message come twice, with the same id, and receivers can drop it.
 * Rows of one recipient's way go one after another, in the order they were made: 'it is over' never comes before 'it began'.
 */
import type { NoticeRow } from '../notice/notice-row.ts';
import { waitBeforeRetry } from './retry.ts';
import { failed, messageOf, type Send, type Sent } from './sender.ts';

/** The store, narrowed to what is needed here. Both may throw; that is tried again. */
export interface NoticeStore {
  /** Rows in state `due`, also those that are due later, oldest first, at most `limit`. */
  due(limit: number): NoticeRow[];
  /** Keeps the row as it is now, on disk when it returns. */
  mark(row: NoticeRow): void;
}

export interface OutboxOptions {
  store: NoticeStore;
  /** The sender of this recipient's way; undefined where the settings no longer have it. */
  senderFor: (to: string, way: string) => Send | undefined;
  clock?: OutboxClock;
  /** Told of each row that was sent or given up, and of the store's own troubles. */
  onSettled?: (row: NoticeRow) => void;
  onTrouble?: (sentence: string) => void;
}

export interface OutboxClock {
  nowMs: () => number;
  random: () => number;
  /** Calls `wake` once after this time; returns how to cancel it. */
  after: (ms: number, wake: () => void) => () => void;
}

export interface Outbox {
  /** New rows were committed: look now. */
  poke(): void;
  /** Starts nothing more and waits for what is under way. */
  close(): Promise<void>;
}

/** Read at each look: 10,000 rows of 2 KB are 20 MB, and a day of a hundred unreachable recipients. */
const MOST_ROWS = 10_000;
/** Ways served at once: mail relays dislike more from one client. */
const MOST_AT_ONCE = 4;
/** A look without a poke, should one have been missed. */
const LOOK_EVERY_MS = 60_000;
/** Pokes may come with every commit, hundreds a second; a look reads the store. Five a second are soon enough for people. */
const LOOKS_APART_MS = 200;

interface Line {
  options: OutboxOptions;
  clock: OutboxClock;
  /** Ways with a sending under way. */
  busy: Map<string, Promise<void>>;
  /** Settled rows that the store has not taken yet: not to be sent again meanwhile. */
  unmarked: Map<string, NoticeRow>;
  closing: boolean;
  lookedMs: number;
  /** A poke waits for its turn. */
  poked: boolean;
  cancel: () => void;
}

export function openOutbox(options: OutboxOptions): Outbox {
  const line: Line = {
    options,
    clock: options.clock ?? REAL_CLOCK,
    busy: new Map(),
    unmarked: new Map(),
    closing: false,
    lookedMs: Number.NEGATIVE_INFINITY,
    poked: false,
    cancel: () => undefined,
  };
  look(line);
  return {
    poke: () => poke(line),
    async close() {
      line.closing = true;
      line.cancel();
      await Promise.all(line.busy.values());
      tryMarkLeft(line);
    },
  };
}

const REAL_CLOCK: OutboxClock = {
  nowMs: () => Date.now(),
  random: () => Math.random(),
  after(ms, wake) {
    const timer = setTimeout(wake, ms);
    timer.unref();
    return () => clearTimeout(timer);
  },
};

function poke(line: Line): void {
  if (line.closing || line.poked) return;
  const waitMs = line.lookedMs + LOOKS_APART_MS - line.clock.nowMs();
  if (waitMs <= 0) {
    look(line);
    return;
  }
  line.poked = true;
  line.cancel();
  line.cancel = line.clock.after(waitMs, () => look(line));
}

/** Starts what can start now, and sets the one timer for what can start next. */
function look(line: Line): void {
  if (line.closing) return;
  line.cancel();
  const nowMs = line.clock.nowMs();
  line.lookedMs = nowMs;
  line.poked = false;
  let nextMs = nowMs + LOOK_EVERY_MS;
  for (const row of firstOfEachWay(line, dueRows(line), nowMs)) {
    if (line.busy.size >= MOST_AT_ONCE && row.dueMs <= nowMs) break;
    if (row.dueMs <= nowMs) start(line, row);
    else nextMs = Math.min(nextMs, row.dueMs);
  }
  line.cancel = line.clock.after(Math.max(1, nextMs - nowMs), () => look(line));
}

function dueRows(line: Line): NoticeRow[] {
  try {
    markLeft(line);
    return line.options.store.due(MOST_ROWS).filter((row) => !line.unmarked.has(row.id));
  } catch (error) {
    line.options.onTrouble?.(`Cannot look for notices to send: ${messageOf(error)}`);
    return [];
  }
}

/** Per way the row whose turn it is: the oldest, but one that was never tried and is due later does not hold up the others. */
function firstOfEachWay(line: Line, rows: readonly NoticeRow[], nowMs: number): NoticeRow[] {
  const first = new Map<string, NoticeRow>();
  for (const row of [...rows].sort(byAge)) {
    const way = wayOf(row);
    if (line.busy.has(way)) continue;
    const held = first.get(way);
    if (held === undefined || (held.tries === 0 && held.dueMs > nowMs && row.dueMs < held.dueMs))
      first.set(way, row);
  }
  return [...first.values()].sort((a, b) => a.dueMs - b.dueMs);
}

const ORDER: Record<NoticeRow['what'], number> = { test: 0, raised: 1, changed: 2, cleared: 3, withdrawn: 4 };

function byAge(a: NoticeRow, b: NoticeRow): number {
  return a.madeMs - b.madeMs || ORDER[a.what] - ORDER[b.what] || (a.id < b.id ? -1 : 1);
}

function wayOf(row: NoticeRow): string {
  return `${row.to}\n${row.body.way ?? ''}`;
}

function start(line: Line, row: NoticeRow): void {
  const way = wayOf(row);
  line.busy.set(way, serve(line, row, way));
}

async function serve(line: Line, row: NoticeRow, way: string): Promise<void> {
  const sent = await sendOnce(line, row);
  line.busy.delete(way);
  settle(line, row, sent);
  look(line);
}

async function sendOnce(line: Line, row: NoticeRow): Promise<Sent> {
  const send = line.options.senderFor(row.to, row.body.way ?? '');
  if (send === undefined)
    return failed(
      `The settings no longer say how to tell ${row.to} by ${row.body.way ?? 'this way'}.`,
      false,
    );
  try {
    return await send(row, line.clock.nowMs());
  } catch (error) {
    return failed(`Cannot send: ${messageOf(error)}`, true);
  }
}

function settle(line: Line, row: NoticeRow, sent: Sent): void {
  const nowMs = line.clock.nowMs();
  const after = rowAfter(row, sent, { nowMs, random: line.clock.random() });
  line.unmarked.set(after.id, after);
  tryMarkLeft(line);
  if (after.state !== 'due') line.options.onSettled?.(after);
}

/** The row after one try: sent, due again later, or given up. */
function rowAfter(row: NoticeRow, sent: Sent, at: { nowMs: number; random: number }): NoticeRow {
  const tries = row.tries + 1;
  if (sent.sent) {
    const { lastError: _, ...rest } = row;
    return { ...rest, tries, state: 'sent', sentMs: at.nowMs };
  }
  const waitMs = sent.again ? waitBeforeRetry(tries, at.random) : undefined;
  return waitMs === undefined
    ? { ...row, tries, state: 'given-up', lastError: sent.problem }
    : { ...row, tries, dueMs: at.nowMs + waitMs, lastError: sent.problem };
}

function markLeft(line: Line): void {
  for (const [id, row] of line.unmarked) {
    line.options.store.mark(row);
    line.unmarked.delete(id);
  }
}

function tryMarkLeft(line: Line): void {
  try {
    markLeft(line);
  } catch (error) {
    line.options.onTrouble?.(`Cannot keep that a notice was sent: ${messageOf(error)}`);
  }
}
