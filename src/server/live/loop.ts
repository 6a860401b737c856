/**
 * What the live loop holds, when it wakes, and how it recovers: when a commit fails, what is in
 * memory is ahead of the disk. It is thrown away and made again from the store, and the nodes,
 * which were told nothing, send again.
 */
import type { LiveChange } from '../../http/deps.ts';
import type { Mutex } from '../../mutex.ts';
import type { WaitingAct } from './act-queue.ts';
import type { ReceivedMessage } from './intake.ts';
import { loadLiveState } from './load.ts';
import type { LiveOptions, LiveState } from './state.ts';
import { aliveDueMs, tick } from './turn.ts';
import { notifyViewers } from './viewers.ts';
import { texts } from '../texts.ts';

/** Housekeeping of the store, in bites that leave the loop free. */
export const MAINTENANCE_INTERVAL_MS = 5000;
const MAINTENANCE_STEP_MS = 25;
const MAINTENANCE_PAUSE_MS = 1000;
const RELOAD_AFTER_MS = 10_000;

export interface Loop {
  options: LoopOptions;
  /** Held by whatever changes `live` until its commit has settled. */
  mutex: Mutex;
  live: LiveState;
  queue: ReceivedMessage[];
  acts: WaitingAct[];
  /** A turn's timer is set, or it waits for the mutex, or it runs. */
  turnDue: boolean;
  timer: NodeJS.Timeout | undefined;
  /** The loop sleeps until then, unless something comes. */
  sleeper: NodeJS.Timeout | undefined;
  /**
   * It woke, and its tick waits for the mutex: one is enough, so that on a slow disk they do not
   * pile up.
   */
  tickDue: boolean;
  healthProblem: string | undefined;
  retryAtMs: number;
  maintainAtMs: number;
  lastAliveMs: number;
  viewers: Set<(change: LiveChange) => void>;
  drainWaiters: (() => void)[];
  closed: boolean;
  batchDelayMs: number;
  /** Messages of the turn before. */
  lastTurnMessages: number;
  /** Messages taken that were not kept, since the last time that keeping worked. */
  lostMessages: number;
}

export interface LoopOptions extends LiveOptions {
  /** Tests and the demo's past drive the time themselves. */
  autoTick?: boolean;
  /** How long a turn waits for more messages; BATCH_DELAY_MS where not given. */
  batchDelayMs?: number;
  /** Notices were committed: whoever sends them may look. */
  onCommit?: () => void;
  /**
   * So many messages were taken and could not be kept, and keeping works again: whoever brought
   * them is to bring them again.
   */
  onLost?: (messages: number) => void;
}

/** What was taken and not kept has to come again, once that helps. */
export function requestResend(loop: Loop): void {
  if (loop.lostMessages === 0 || healthProblemOf(loop) !== undefined) return;
  const messages = loop.lostMessages;
  loop.lostMessages = 0;
  loop.options.log('warn', texts().messagesCouldNotBeKept(messages));
  loop.options.onLost?.(messages);
}

/**
 * The loop sleeps until something is due: in the fleet, in the store's housekeeping, or a sign of
 * life; after a failure until it may try again. It never sleeps longer than housekeeping does, so a
 * clock that was set forward is noticed by then.
 */
export function scheduleWake(loop: Loop): void {
  const { options, live } = loop;
  if (options.autoTick === false || loop.closed || loop.tickDue) return;
  const atMs =
    loop.healthProblem === undefined
      ? Math.min(live.wakeAtMs, loop.maintainAtMs, aliveDueMs(loop))
      : loop.retryAtMs;
  const sleepMs = Math.min(Math.max(0, atMs - options.now()), MAINTENANCE_INTERVAL_MS);
  clearTimeout(loop.sleeper);
  loop.sleeper = setTimeout(() => {
    loop.tickDue = true;
    void loop.mutex.run(() => {
      loop.tickDue = false;
      return tickNow(loop);
    });
  }, sleepMs);
}

export async function tickNow(loop: Loop): Promise<void> {
  if (loop.closed) return;
  const nowMs = loop.options.now();
  await withRecovery(loop, async () => {
    const end = await tick(loop.live, nowMs, loop);
    notifyViewers(loop.live, loop.viewers, end, false);
    if (end.committed) loop.options.onCommit?.();
    if (nowMs < loop.maintainAtMs) return;
    const more = await loop.options.store.maintain(nowMs, MAINTENANCE_STEP_MS);
    loop.maintainAtMs = nowMs + (more ? MAINTENANCE_PAUSE_MS : MAINTENANCE_INTERVAL_MS);
  });
  if (loop.queue.length === 0) requestResend(loop);
}

/**
 * Runs what commits. On failure the memory is ahead of the disk: it is made again from the store,
 * at once or a little later. Returns what went wrong.
 */
export async function withRecovery(loop: Loop, work: () => Promise<void>): Promise<unknown> {
  try {
    return await tryWork(loop, work);
  } finally {
    scheduleWake(loop);
  }
}

async function tryWork(loop: Loop, work: () => Promise<void>): Promise<unknown> {
  if (loop.healthProblem !== undefined) {
    if (loop.options.now() < loop.retryAtMs) return undefined;
    if (!(await reload(loop))) return undefined;
  }
  try {
    await work();
    return undefined;
  } catch (error) {
    fail(loop, error);
    return error;
  }
}

export function errorMessage(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function fail(loop: Loop, error: unknown): void {
  loop.healthProblem = errorMessage(error);
  loop.retryAtMs = loop.options.now() + RELOAD_AFTER_MS;
  loop.options.log('error', loop.healthProblem);
}

export async function reload(loop: Loop): Promise<boolean> {
  try {
    loop.live = await loadLiveState(loop.options, loop.options.now());
    loop.live.hasViewers = loop.viewers.size > 0;
    loop.healthProblem = undefined;
    loop.options.log('info', texts().keepingReadingsAgain);
    return true;
  } catch (error) {
    fail(loop, error);
    return false;
  }
}

/** Read anew: what runs in between may have failed. */
export function healthProblemOf(loop: Loop): string | undefined {
  return loop.healthProblem;
}
