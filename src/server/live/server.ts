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
import { StoreError } from '../../store/store-error.ts';
import type { Change } from '../../store/store.ts';
import { newMutex, type Mutex } from '../../mutex.ts';
import { applyAct, type ActResult } from './acts.ts';
import { ceilingProblems } from './ceiling.ts';
import { wellCeiling } from '../../core/fleet/ceiling.ts';
import { handle } from '../../core/fleet/handle.ts';
import { applyEffects } from './apply-effect.ts';
import { dropNode, planForget } from './forget.ts';
import type { ReceivedMessage } from './intake.ts';
import { loadLiveState } from './load.ts';
import type { LiveOptions, LiveState } from './state.ts';
import { aliveDueMs, tick, saveAll, processTurn } from './turn.ts';
import { notifyViewers } from './viewers.ts';

export interface LiveServer {
  /** A message came; `kept` is called once it is on disk. */
  receive: (message: Omit<ReceivedMessage, 'arrivalMs'>) => void;
  /** `refuse` is asked between turns, right before; it says why the act is not to be done. */
  applyAct: (json: unknown, by?: string, refuse?: () => Promise<string | undefined>) => Promise<ActResult>;
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

/** When few messages come, a turn waits this long for more: fewer commits, and nobody notices. */
const BATCH_DELAY_MS = 15;
/** A turn of this many did not need to wait: 64 a turn is a commit's cost well shared. */
const BUSY_TURN_MESSAGES = 64;
/** One turn takes this many messages at most, so that no commit grows without end. */
const MAX_TURN_MESSAGES = 2000;
/**
 * After this many waiting messages the oldest are not taken in: a node sends again what was not
 * kept.
 */
const MAX_QUEUED_MESSAGES = 50_000;
/** Housekeeping of the store, in bites that leave the loop free. */
const MAINTENANCE_INTERVAL_MS = 5000;
const MAINTENANCE_STEP_MS = 25;
const MAINTENANCE_PAUSE_MS = 1000;
const RELOAD_AFTER_MS = 10_000;

interface Loop {
  options: LoopOptions;
  /** Held by whatever changes `live` until its commit has settled. */
  mutex: Mutex;
  live: LiveState;
  queue: ReceivedMessage[];
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

/** @throws StoreError where the store cannot be read. */
export async function openLiveServer(options: LoopOptions): Promise<LiveServer> {
  const nowMs = options.now();
  const loop: Loop = {
    options,
    mutex: newMutex(),
    live: await loadLiveState(options, nowMs),
    queue: [],
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
  const onCommit = options.onCommit ?? (() => undefined);
  scheduleWake(loop);
  return {
    receive: (message) => receive(loop, message, onCommit),
    applyAct: (json, by, refuse) =>
      loop.mutex.run(async () => {
        const why = await refuse?.();
        return why === undefined
          ? await runAct(loop, onCommit, (nowMs) => applyAct(loop.live, json, nowMs, by))
          : { problem: why };
      }),
    approveNode: (node) => loop.mutex.run(() => approveNode(loop, node, onCommit)),
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
    tick: () => loop.mutex.run(() => tickNow(loop, onCommit)),
    close: () => close(loop),
  };
}

function receive(loop: Loop, message: Omit<ReceivedMessage, 'arrivalMs'>, onCommit: () => void): void {
  if (loop.closed) return;
  if (loop.queue.length >= MAX_QUEUED_MESSAGES) {
    loop.lostMessages++;
    return;
  }
  loop.queue.push({ ...message, arrivalMs: loop.options.now() });
  // Under load messages gather by themselves while a turn works; waiting for more would only leave
  // the machine idle.
  const isBusy = loop.lastTurnMessages >= BUSY_TURN_MESSAGES;
  if (!loop.turnDue) scheduleTurn(loop, isBusy ? 0 : loop.batchDelayMs, onCommit);
  else if (loop.queue.length === MAX_TURN_MESSAGES && loop.timer !== undefined) {
    clearTimeout(loop.timer);
    scheduleTurn(loop, 0, onCommit);
  }
}

function scheduleTurn(loop: Loop, waitMs: number, onCommit: () => void): void {
  loop.turnDue = true;
  loop.timer = setTimeout(() => {
    loop.timer = undefined;
    void loop.mutex.run(() => runTurn(loop, onCommit));
  }, waitMs);
}

async function runTurn(loop: Loop, onCommit: () => void): Promise<void> {
  if (loop.closed) return;
  const received = loop.queue.splice(0, MAX_TURN_MESSAGES);
  loop.lastTurnMessages = received.length;
  await handleAll(loop, received, onCommit);
  // What came while this turn waited for the store has a turn of its own, once the event loop had
  // its time.
  if (loop.queue.length > 0) {
    scheduleTurn(loop, 0, onCommit);
    return;
  }
  loop.turnDue = false;
  requestResend(loop);
  for (const done of loop.drainWaiters.splice(0)) done();
}

/** What was taken and not kept has to come again, once that helps. */
function requestResend(loop: Loop): void {
  if (loop.lostMessages === 0 || healthProblemOf(loop) !== undefined) return;
  const messages = loop.lostMessages;
  loop.lostMessages = 0;
  loop.options.log('warn', `${messages} messages could not be kept when they came: asking for them again.`);
  loop.options.onLost?.(messages);
}

/**
 * A turn over all that came. Where a fault of our own broke it, each message has a turn to itself:
 * the one that breaks its own is left out and said, the others are taken.
 */
async function handleAll(
  loop: Loop,
  received: readonly ReceivedMessage[],
  onCommit: () => void,
): Promise<void> {
  let handled = false;
  const failure = await withRecovery(loop, async () => {
    const end = await processTurn(loop.live, received, loop.options.now());
    handled = true;
    notifyViewers(loop.live, loop.viewers, end, received.length > 0);
    if (end.committed) onCommit();
  });
  if (handled) return;
  if (failure === undefined || failure instanceof StoreError || !(await reload(loop))) {
    loop.lostMessages += received.length;
    return;
  }
  if (received.length > 1) for (const message of received) await handleAll(loop, [message], onCommit);
  else
    loop.options.log(
      'error',
      `A message to ${received[0]?.topic ?? 'nobody'} was left out: ${errorMessage(failure)}`,
    );
}

/**
 * The loop sleeps until something is due: in the fleet, in the store's housekeeping, or a sign of
 * life; after a failure until it may try again. It never sleeps longer than housekeeping does, so a
 * clock that was set forward is noticed by then.
 */
function scheduleWake(loop: Loop): void {
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
      return tickNow(loop, options.onCommit ?? (() => undefined));
    });
  }, sleepMs);
}

async function tickNow(loop: Loop, onCommit: () => void): Promise<void> {
  if (loop.closed) return;
  const nowMs = loop.options.now();
  await withRecovery(loop, async () => {
    const end = await tick(loop.live, nowMs, loop);
    notifyViewers(loop.live, loop.viewers, end, false);
    if (end.committed) onCommit();
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
async function withRecovery(loop: Loop, work: () => Promise<void>): Promise<unknown> {
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

function errorMessage(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function fail(loop: Loop, error: unknown): void {
  loop.healthProblem = errorMessage(error);
  loop.retryAtMs = loop.options.now() + RELOAD_AFTER_MS;
  loop.options.log('error', loop.healthProblem);
}

async function reload(loop: Loop): Promise<boolean> {
  try {
    loop.live = await loadLiveState(loop.options, loop.options.now());
    loop.live.hasViewers = loop.viewers.size > 0;
    loop.healthProblem = undefined;
    loop.options.log('info', 'Keeping readings again.');
    return true;
  } catch (error) {
    fail(loop, error);
    return false;
  }
}

/** What a person does, in a turn of its own. */
async function runAct(
  loop: Loop,
  onCommit: () => void,
  act: (nowMs: number) => ActResult,
): Promise<ActResult> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return { problem: `Cannot keep anything now: ${before}` };
  const nowMs = loop.options.now();
  let done: ActResult = { problem: 'Cannot do this now: try again' };
  await withRecovery(loop, async () => {
    const end = await processTurn(loop.live, [], nowMs, () => {
      done = act(nowMs);
    });
    notifyViewers(loop.live, loop.viewers, end, false);
    if (end.committed) onCommit();
  });
  const after = healthProblemOf(loop);
  return after === undefined ? done : { problem: `Cannot keep this: ${after}` };
}

/**
 * Everything derived is saved first, so that making it again costs no well more than a look at its
 * last save.
 */
async function importChanges(
  loop: Loop,
  plan: () => Promise<readonly Change[]>,
): Promise<string | undefined> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return `Cannot keep anything now: ${before}`;
  const changes = await plan();
  // Where nothing is new nothing is made again.
  if (changes.length === 0) return undefined;
  const addsWell = changes.some(
    (one) => one.change === 'imported' && one.row.kind === 'well' && !loop.live.pipelines.has(one.row.well),
  );
  const full = addsWell ? wellCeiling(loop.live) : undefined;
  if (full !== undefined) return `Cannot add a well: ${full}`;
  const { options, live } = loop;
  await withRecovery(loop, async () => {
    await saveAll(live, options.now());
    await options.store.commit(changes);
    loop.live = await loadLiveState(options, options.now());
    loop.live.hasViewers = loop.viewers.size > 0;
    loop.live.counts = live.counts;
  });
  const after = healthProblemOf(loop);
  return after === undefined ? undefined : `Cannot keep this: ${after}`;
}

/** Read anew: what runs in between may have failed. */
function healthProblemOf(loop: Loop): string | undefined {
  return loop.healthProblem;
}

async function approveNode(loop: Loop, node: string, onCommit: () => void): Promise<string | undefined> {
  const done = await runAct(loop, onCommit, (nowMs) => {
    const effects = handle(loop.live, { is: 'approval', node }, nowMs);
    applyEffects(loop.live, effects, { nowMs });
    const rejected = effects.find((effect) => effect.is === 'rejected');
    return rejected ? { problem: rejected.problem } : { done: true, atMs: nowMs };
  });
  return 'problem' in done ? done.problem : undefined;
}

async function forget(loop: Loop, node: string): Promise<string | undefined> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return `Cannot keep anything now: ${before}`;
  const { options } = loop;
  const plan = await planForget(options.store, node, options.now());
  if ('problem' in plan) return plan.problem;
  await withRecovery(loop, async () => {
    await options.store.commit(plan.changes);
    dropNode(loop.live, node);
  });
  const after = healthProblemOf(loop);
  return after === undefined ? undefined : `Cannot keep this: ${after}`;
}

function healthProblemsOf(loop: Loop): string[] {
  const out = loop.healthProblem === undefined ? [] : [loop.healthProblem];
  for (const pipeline of loop.live.pipelines.values()) {
    if (pipeline.fault !== undefined)
      out.push(`A fault of our own stopped the watching of ${pipeline.well}: ${pipeline.fault}`);
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
