/**
 * The live server: the only loop with a timer. Messages queue up; a turn takes all that came,
 * commits once, and then says `kept`. When a commit fails, what is in memory is ahead of the disk:
 * it is thrown away and made again from the store, and the nodes, which were told nothing, send
 * again.
 *
 * A turn waits for the store, and while it does the state in memory is ahead of the disk too. So
 * turns, acts, approvals and whoever reads the state take their turn at one mutex: there are never
 * two commits at once, and nobody sees what is not kept yet.
 */
import type { LiveChange } from '../../http/deps.ts';
import type { Change } from '../../store/store.ts';
import { newMutex } from '../../mutex.ts';
import { queueAct, type Refuse } from './act-queue.ts';
import type { ActResult } from './acts.ts';
import { ceilingProblems } from './ceiling.ts';
import type { ReceivedMessage } from './intake.ts';
import { loadLiveState } from './load.ts';
import {
  MAINTENANCE_INTERVAL_MS,
  scheduleWake,
  tickNow,
  withRecovery,
  type Loop,
  type LoopOptions,
} from './loop.ts';
import { BATCH_DELAY_MS, receive } from './message-queue.ts';
import { approveNode, forget, importChanges } from './requests.ts';
import type { LiveState } from './state.ts';
import { processTurn, saveAll } from './turn.ts';
import { texts } from '../texts.ts';

export interface LiveServer {
  /** A message came; `kept` is called once it is on disk. */
  receive: (message: Omit<ReceivedMessage, 'arrivalMs'>) => void;
  /** `refuse` is asked between turns, right before; it says why the act is not to be done. */
  applyAct: (json: unknown, by?: string, refuse?: Refuse) => Promise<ActResult>;
  /** Returns why not, in a sentence. */
  approveNode: (node: string) => Promise<string | undefined>;
  /** Forgets a node with its empty well. Returns why not, in a sentence. */
  forget: (node: string) => Promise<string | undefined>;
  /**
   * Commits what another Stillwell handed over, and makes the live state again from the store,
   * which then holds it. `plan` reads the store between turns, so that what it plans from is what
   * the changes are committed to. Returns what went wrong, in a sentence.
   */
  importChanges: (plan: () => Promise<readonly Change[]>) => Promise<string | undefined>;
  /** Calls `view` between turns: all that it sees is committed. */
  read: <T>(view: (state: LiveState) => T) => Promise<T>;
  /** As it is at this instant: in the middle of a turn it may be ahead of what is kept. */
  state: () => LiveState;
  /** What is wrong with the server itself, a sentence each. */
  healthProblems: () => string[];
  subscribe: (fn: (change: LiveChange) => void) => () => void;
  /** Resolves when all that came so far is committed. */
  drained: () => Promise<void>;
  /**
   * Makes time go on now; else it does so when something is due. Resolves when what that brought is
   * committed.
   */
  tick: () => Promise<void>;
  /** Saves everything derived. The store is closed by whoever opened it. */
  close: () => Promise<void>;
}

/** @throws StoreError where the store cannot be read. */
export async function openLiveServer(options: LoopOptions): Promise<LiveServer> {
  const nowMs = options.now();
  const loop: Loop = {
    options,
    mutex: newMutex(),
    live: await loadLiveState(options, nowMs),
    queue: [],
    acts: [],
    turnDue: false,
    timer: undefined,
    sleeper: undefined,
    tickDue: false,
    healthProblem: undefined,
    retryAtMs: 0,
    maintainAtMs: nowMs + MAINTENANCE_INTERVAL_MS,
    lastAliveMs: 0,
    viewers: new Set(),
    drainWaiters: [],
    closed: false,
    batchDelayMs: options.batchDelayMs ?? BATCH_DELAY_MS,
    lastTurnMessages: 0,
    lostMessages: 0,
  };
  scheduleWake(loop);
  return {
    receive: (message) => receive(loop, message),
    applyAct: (json, by, refuse) => queueAct(loop, { json, by, refuse }),
    approveNode: (node) => loop.mutex.run(() => approveNode(loop, node)),
    forget: (node) => loop.mutex.run(() => forget(loop, node)),
    importChanges: (plan) => loop.mutex.run(() => importChanges(loop, plan)),
    read: (view) => loop.mutex.run(() => view(loop.live)),
    state: () => loop.live,
    healthProblems: () => healthProblemsOf(loop),
    subscribe: (fn) => {
      loop.viewers.add(fn);
      loop.live.hasViewers = true;
      return () => {
        loop.viewers.delete(fn);
        loop.live.hasViewers = loop.viewers.size > 0;
      };
    },
    drained: () =>
      loop.turnDue ? new Promise((done) => loop.drainWaiters.push(done)) : loop.mutex.run(() => undefined),
    tick: () => loop.mutex.run(() => tickNow(loop)),
    close: () => close(loop),
  };
}

function healthProblemsOf(loop: Loop): string[] {
  const out = loop.healthProblem === undefined ? [] : [loop.healthProblem];
  for (const pipeline of loop.live.pipelines.values()) {
    if (pipeline.fault !== undefined)
      out.push(texts().faultOfOurOwnStopped({ well: pipeline.well, fault: pipeline.fault }));
  }
  return [...out, ...ceilingProblems(loop.live)];
}

async function close(loop: Loop): Promise<void> {
  clearTimeout(loop.sleeper);
  clearTimeout(loop.timer);
  // What comes from now on is not taken: it was acknowledged to nobody.
  loop.closed = true;
  await loop.mutex.run(async () => {
    if (loop.queue.length > 0 && loop.healthProblem === undefined) {
      await withRecovery(loop, async () => {
        await processTurn(loop.live, loop.queue.splice(0), loop.options.now());
      });
    }
    if (loop.healthProblem === undefined)
      await withRecovery(loop, () => saveAll(loop.live, loop.options.now()));
  });
  for (const done of loop.drainWaiters.splice(0)) done();
}
