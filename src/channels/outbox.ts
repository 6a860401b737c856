/**
 * The outbox: rows that are due are sent, once to each, and marked. What is due is in the store, so
 * a restart forgets nothing; between sending and marking lies an instant in which a crash makes one
 * message come twice, with the same id, and receivers can drop it. Rows of one recipient's way go
 * one after another, in the order they were made: 'it is over' never comes before 'it began'.
 */
import { MINUTE_MS } from '../../shared/units/duration.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import { newMutex, type Mutex } from '../mutex.ts';
import { retryDelayMs } from './retry.ts';
import { sendFailure, errorMessage, type Send, type SendResult } from './sender.ts';
import { texts } from './texts.ts';

/** The store, narrowed to what is needed here. Both may reject; that is tried again. */
export interface NoticeStore {
  /** Rows in state `due`, also those that are due later, oldest first, at most `limit`. */
  due(limit: number): Promise<NoticeRow[]>;
  /** Keeps the row as it is now, on disk when it resolves. */
  mark(row: NoticeRow): Promise<void>;
}

export interface OutboxOptions {
  store: NoticeStore;
  /** The sender of this recipient's way; undefined where the settings no longer have it. */
  senderFor: (to: string, channel: string) => Send | undefined;
  clock?: OutboxClock;
  /** Told of each row that was sent or given up, and of the store's own troubles. */
  onSettled?: (row: NoticeRow) => void;
  onProblem?: (sentence: string) => void;
}

export interface OutboxClock {
  nowMs: () => number;
  random: () => number;
  /** Calls `wake` once after this time; returns how to cancel it. */
  after: (ms: number, wake: () => void) => () => void;
}

export interface Outbox {
  /** New rows were committed: look now. */
  wake(): void;
  /** Starts nothing more and waits for what is under way. */
  close(): Promise<void>;
}

/**
 * Read at each look: 10,000 rows of 2 KB are 20 MB, and a day of a hundred unreachable recipients.
 */
const MAX_ROWS = 10_000;
/** Ways served at once: mail relays dislike more from one client. */
const MAX_CONCURRENT = 4;
/** A look without a poke, should one have been missed. */
const POLL_INTERVAL_MS = MINUTE_MS;
/**
 * Pokes may come with every commit, hundreds a second; a look reads the store. Five a second are
 * soon enough for people.
 */
const MIN_POLL_INTERVAL_MS = 200;

interface OutboxState {
  options: OutboxOptions;
  clock: OutboxClock;
  /**
   * Held while the store is read or written: an answer to `due` that is older than a mark would
   * send the same row again.
   */
  mutex: Mutex;
  /** Ways with a sending under way, until its result was kept or could not be. */
  busy: Map<string, Promise<void>>;
  /** Settled rows that the store has not taken yet: not to be sent again meanwhile. */
  unsaved: Map<string, NoticeRow>;
  closing: boolean;
  lastPollMs: number;
  /** A poke waits for its turn. */
  pollScheduled: boolean;
  cancel: () => void;
}

export function openOutbox(options: OutboxOptions): Outbox {
  const state: OutboxState = {
    options,
    clock: options.clock ?? REAL_CLOCK,
    mutex: newMutex(),
    busy: new Map(),
    unsaved: new Map(),
    closing: false,
    lastPollMs: Number.NEGATIVE_INFINITY,
    pollScheduled: false,
    cancel: () => undefined,
  };
  requestPoll(state);
  return {
    wake: () => requestPoll(state),
    async close() {
      state.closing = true;
      state.cancel();
      await Promise.all(state.busy.values());
      await state.mutex.run(() => trySaveResults(state));
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

function requestPoll(state: OutboxState): void {
  if (state.closing || state.pollScheduled) return;
  const waitMs = state.lastPollMs + MIN_POLL_INTERVAL_MS - state.clock.nowMs();
  state.pollScheduled = true;
  if (waitMs <= 0) {
    startPoll(state);
    return;
  }
  state.cancel();
  state.cancel = state.clock.after(waitMs, () => startPoll(state));
}

function startPoll(state: OutboxState): void {
  void state.mutex.run(() => poll(state));
}

/** Starts what can start now, and sets the one timer for what can start next. */
async function poll(state: OutboxState): Promise<void> {
  if (state.closing) return;
  state.cancel();
  const nowMs = state.clock.nowMs();
  state.lastPollMs = nowMs;
  // A poke from here on asks for a look of its own: what it is about may not be in this one.
  state.pollScheduled = false;
  const rows = await dueRows(state);
  // Read anew: it may have been closed meanwhile.
  if (isClosing(state)) return;
  let nextMs = nowMs + POLL_INTERVAL_MS;
  for (const row of nextRowPerChannel(state, rows, nowMs)) {
    if (state.busy.size >= MAX_CONCURRENT && row.dueMs <= nowMs) break;
    if (row.dueMs <= nowMs) startSending(state, row);
    else nextMs = Math.min(nextMs, row.dueMs);
  }
  // A poke that came meanwhile has set the timer already.
  if (!state.pollScheduled) {
    state.cancel = state.clock.after(Math.max(1, nextMs - nowMs), () => startPoll(state));
  }
}

function isClosing(state: OutboxState): boolean {
  return state.closing;
}

async function dueRows(state: OutboxState): Promise<NoticeRow[]> {
  try {
    await saveResults(state);
    return (await state.options.store.due(MAX_ROWS)).filter((row) => !state.unsaved.has(row.id));
  } catch (error) {
    state.options.onProblem?.(texts().cannotReadNoticesToSend(errorMessage(error)));
    return [];
  }
}

/**
 * Per way the row whose turn it is: the oldest, but one that was never tried and is due later does
 * not hold up the others.
 */
function nextRowPerChannel(state: OutboxState, rows: readonly NoticeRow[], nowMs: number): NoticeRow[] {
  const first = new Map<string, NoticeRow>();
  for (const row of [...rows].sort(byAge)) {
    const channel = channelKey(row);
    if (state.busy.has(channel)) continue;
    const candidate = first.get(channel);
    if (
      candidate === undefined ||
      (candidate.tries === 0 && candidate.dueMs > nowMs && row.dueMs < candidate.dueMs)
    )
      first.set(channel, row);
  }
  return [...first.values()].sort((a, b) => a.dueMs - b.dueMs);
}

const ORDER: Record<NoticeRow['what'], number> = { test: 0, raised: 1, changed: 2, cleared: 3, withdrawn: 4 };

function byAge(a: NoticeRow, b: NoticeRow): number {
  return a.createdMs - b.createdMs || ORDER[a.what] - ORDER[b.what] || (a.id < b.id ? -1 : 1);
}

function channelKey(row: NoticeRow): string {
  return `${row.to}\n${row.body.channel ?? ''}`;
}

function startSending(state: OutboxState, row: NoticeRow): void {
  const channel = channelKey(row);
  state.busy.set(channel, sendAndRecord(state, row, channel));
}

async function sendAndRecord(state: OutboxState, row: NoticeRow, channel: string): Promise<void> {
  const sent = await sendOnce(state, row);
  await state.mutex.run(() => recordResult(state, row, sent));
  state.busy.delete(channel);
  startPoll(state);
}

async function sendOnce(state: OutboxState, row: NoticeRow): Promise<SendResult> {
  const send = state.options.senderFor(row.to, row.body.channel ?? '');
  if (send === undefined)
    return sendFailure(
      texts().settingsNoLongerSayHow({ to: row.to, channel: row.body.channel ?? texts().thisWay }),
      false,
    );
  try {
    return await send(row, state.clock.nowMs());
  } catch (error) {
    return sendFailure(texts().cannotSendNow(errorMessage(error)), true);
  }
}

async function recordResult(state: OutboxState, row: NoticeRow, sent: SendResult): Promise<void> {
  const nowMs = state.clock.nowMs();
  const updated = rowAfterTry(row, sent, { nowMs, random: state.clock.random() });
  state.unsaved.set(updated.id, updated);
  await trySaveResults(state);
  if (updated.state !== 'due') state.options.onSettled?.(updated);
}

/** The row after one try: sent, due again later, or given up. */
function rowAfterTry(row: NoticeRow, sent: SendResult, at: { nowMs: number; random: number }): NoticeRow {
  const tries = row.tries + 1;
  if (sent.sent) {
    const { lastError: _, ...rest } = row;
    return { ...rest, tries, state: 'sent', sentMs: at.nowMs };
  }
  const waitMs = sent.retryable ? retryDelayMs(tries, at.random) : undefined;
  return waitMs === undefined
    ? { ...row, tries, state: 'given-up', lastError: sent.problem }
    : { ...row, tries, dueMs: at.nowMs + waitMs, lastError: sent.problem };
}

async function saveResults(state: OutboxState): Promise<void> {
  for (const [id, row] of state.unsaved) {
    await state.options.store.mark(row);
    state.unsaved.delete(id);
  }
}

async function trySaveResults(state: OutboxState): Promise<void> {
  try {
    await saveResults(state);
  } catch (error) {
    state.options.onProblem?.(texts().cannotKeepThatANoticeWasSent(errorMessage(error)));
  }
}
