/**
 * The live server: the only loop with a timer. Messages queue up; a turn takes all that came, commits once, and then says `kept`.
 * When a commit fails, what is in memory is ahead of the disk: it is thrown away and made again from the store, and the nodes, which
 * were told nothing, send again.
 */
import type { LiveChange, LiveReadings } from '../../web/deps.ts';
import { channelName } from '../../card/channels.ts';
import { feedsOf } from '../../card/reads.ts';
import type { PlacedPack } from '../../readings/placed.ts';
import { StoreError } from '../../store/store-error.ts';
import type { Change } from '../../store/store.ts';
import { doAct, type ActDone } from './acts.ts';
import { ceilingAilments, wellCeiling } from './ceiling.ts';
import { dropNode, planForget } from './forget.ts';
import type { Came } from './intake.ts';
import { letNodeIn } from './let-in.ts';
import { loadLive } from './load.ts';
import type { LiveOptions, LiveState } from './state.ts';
import { beat, saveAll, turn, type TurnEnd } from './turn.ts';

export interface LiveServer {
  /** A message came; `kept` is called once it is on disk. */
  take: (message: Omit<Came, 'arrivalMs'>) => void;
  act: (written: unknown, by?: string) => ActDone;
  /** Returns why not, in a sentence. */
  letIn: (node: string) => string | undefined;
  /** Forgets a node with its empty well. Returns why not, in a sentence. */
  forget: (node: string) => string | undefined;
  /**
   * Commits what another Stillwell handed over, and makes the live state again from the store, which then holds it. Returns what went
   * wrong, in a sentence.
   */
  handIn: (changes: readonly Change[]) => string | undefined;
  state: () => LiveState;
  /** What is wrong with the server itself, a sentence each. */
  ailments: () => string[];
  subscribe: (fn: (change: LiveChange) => void) => () => void;
  /** Resolves when all that came so far is committed. */
  settled: () => Promise<void>;
  /** Makes time go on now; else it does so once a second. */
  beat: () => void;
  /** Saves everything derived. The store is closed by whoever opened it. */
  close: () => Promise<void>;
}

/** When few messages come, a turn waits this long for more: fewer commits, and nobody notices. */
const GATHER_MS = 15;
/** A turn of this many did not need to wait: 64 a turn is a commit's cost well shared. */
const BUSY_MESSAGES = 64;
/** One turn takes this many messages at most, so that no commit grows without end. */
const TURN_MESSAGES = 2000;
/** After this many waiting messages the oldest are not taken in: a node sends again what was not kept. */
const QUEUE_MESSAGES = 50_000;
const BEAT_MS = 1000;
/** Housekeeping of the store, in bites that leave the loop free. */
const TIDY_EVERY_MS = 5000;
const TIDY_BITE_MS = 25;
const RELOAD_AFTER_MS = 10_000;

interface Loop {
  options: LoopOptions;
  live: LiveState;
  queue: Came[];
  timer: NodeJS.Timeout | undefined;
  beater: NodeJS.Timeout | undefined;
  ailment: string | undefined;
  retryAtMs: number;
  tidyAtMs: number;
  lastAliveMs: number;
  viewers: Set<(change: LiveChange) => void>;
  waiters: (() => void)[];
  closed: boolean;
  gatherMs: number;
  /** Messages of the turn before. */
  lastTurn: number;
  /** Messages taken that were not kept, since the last time that keeping worked. */
  lost: number;
}

export interface LoopOptions extends LiveOptions {
  /** Tests and the demo's past drive the time themselves. */
  beatsByItself?: boolean;
  /** How long a turn waits for more messages; GATHER_MS where not given. */
  gatherMs?: number;
  /** Notices were committed: whoever sends them may look. */
  onCommit?: () => void;
  /** So many messages were taken and could not be kept, and keeping works again: whoever brought them is to bring them again. */
  onLost?: (messages: number) => void;
}

export function openLive(options: LoopOptions): LiveServer {
  const nowMs = options.now();
  const loop: Loop = {
    options,
    live: loadLive(options, nowMs),
    queue: [],
    timer: undefined,
    beater: undefined,
    ailment: undefined,
    retryAtMs: 0,
    tidyAtMs: nowMs,
    lastAliveMs: 0,
    viewers: new Set(),
    waiters: [],
    closed: false,
    gatherMs: options.gatherMs ?? GATHER_MS,
    lastTurn: 0,
    lost: 0,
  };
  const onCommit = options.onCommit ?? (() => undefined);
  if (options.beatsByItself !== false) loop.beater = setInterval(() => beatNow(loop, onCommit), BEAT_MS);
  return {
    take: (message) => take(loop, message, onCommit),
    act: (written, by) => act(loop, written, by, onCommit),
    letIn: (node) => letIn(loop, node, onCommit),
    forget: (node) => forget(loop, node),
    handIn: (changes) => handIn(loop, changes),
    state: () => loop.live,
    ailments: () => ailmentsOf(loop),
    subscribe: (fn) => {
      loop.viewers.add(fn);
      loop.live.looked = true;
      return () => {
        loop.viewers.delete(fn);
        loop.live.looked = loop.viewers.size > 0;
      };
    },
    settled: () =>
      loop.queue.length === 0 ? Promise.resolve() : new Promise((done) => loop.waiters.push(done)),
    beat: () => beatNow(loop, onCommit),
    close: () => close(loop),
  };
}

function take(loop: Loop, message: Omit<Came, 'arrivalMs'>, onCommit: () => void): void {
  if (loop.closed) return;
  if (loop.queue.length >= QUEUE_MESSAGES) {
    loop.lost++;
    return;
  }
  loop.queue.push({ ...message, arrivalMs: loop.options.now() });
  if (loop.queue.length === 1) wakeFor(loop, onCommit);
  else if (loop.queue.length === TURN_MESSAGES) {
    clearTimeout(loop.timer);
    loop.timer = setTimeout(() => runTurn(loop, onCommit), 0);
  }
}

/** Under load messages gather by themselves while a turn works; waiting for more would only leave the machine idle. */
function wakeFor(loop: Loop, onCommit: () => void): void {
  const waitMs = loop.lastTurn >= BUSY_MESSAGES ? 0 : loop.gatherMs;
  loop.timer = setTimeout(() => runTurn(loop, onCommit), waitMs);
}

function runTurn(loop: Loop, onCommit: () => void): void {
  loop.timer = undefined;
  if (loop.closed) return;
  const came = loop.queue.splice(0, TURN_MESSAGES);
  loop.lastTurn = came.length;
  takeAll(loop, came, onCommit);
  if (loop.queue.length > 0) loop.timer = setTimeout(() => runTurn(loop, onCommit), 0);
  else {
    askAgain(loop);
    for (const done of loop.waiters.splice(0)) done();
  }
}

/** What was taken and not kept has to come again, once that helps. */
function askAgain(loop: Loop): void {
  if (loop.lost === 0 || ailmentOf(loop) !== undefined) return;
  const messages = loop.lost;
  loop.lost = 0;
  loop.options.log('warn', `${messages} messages could not be kept when they came: asking for them again.`);
  loop.options.onLost?.(messages);
}

/**
 * A turn over all that came. Where a fault of our own broke it, each message has a turn to itself: the one that breaks its own is left
 * out and said, the others are taken.
 */
function takeAll(loop: Loop, came: readonly Came[], onCommit: () => void): void {
  let taken = false;
  const wrong = guarded(loop, () => {
    const end = turn(loop.live, came, loop.options.now());
    taken = true;
    show(loop, end, came);
    if (end.committed) onCommit();
  });
  if (taken) return;
  if (wrong === undefined || wrong instanceof StoreError || !reload(loop)) {
    loop.lost += came.length;
    return;
  }
  if (came.length > 1) for (const message of came) takeAll(loop, [message], onCommit);
  else loop.options.log('error', `A message to ${came[0]?.topic ?? 'nobody'} was left out: ${say(wrong)}`);
}

function beatNow(loop: Loop, onCommit: () => void): void {
  const nowMs = loop.options.now();
  guarded(loop, () => {
    const end = beat(loop.live, nowMs, loop);
    show(loop, end, []);
    if (end.committed) onCommit();
    if (nowMs - loop.tidyAtMs < TIDY_EVERY_MS) return;
    const more = loop.options.store.tidy(nowMs, TIDY_BITE_MS);
    if (!more) loop.tidyAtMs = nowMs;
  });
  if (loop.queue.length === 0) askAgain(loop);
}

/**
 * Runs what commits. On failure the memory is ahead of the disk: it is made again from the store, at once or a little later. Returns
 * what went wrong.
 */
function guarded(loop: Loop, work: () => void): unknown {
  if (loop.ailment !== undefined) {
    if (loop.options.now() < loop.retryAtMs) return undefined;
    if (!reload(loop)) return undefined;
  }
  try {
    work();
    return undefined;
  } catch (error) {
    fail(loop, error);
    return error;
  }
}

function say(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function fail(loop: Loop, error: unknown): void {
  loop.ailment = say(error);
  loop.retryAtMs = loop.options.now() + RELOAD_AFTER_MS;
  loop.options.log('error', loop.ailment);
}

function reload(loop: Loop): boolean {
  try {
    loop.live = loadLive(loop.options, loop.options.now());
    loop.live.looked = loop.viewers.size > 0;
    loop.ailment = undefined;
    loop.options.log('info', 'Keeping readings again.');
    return true;
  } catch (error) {
    fail(loop, error);
    return false;
  }
}

function act(loop: Loop, written: unknown, by: string | undefined, onCommit: () => void): ActDone {
  const before = ailmentOf(loop);
  if (before !== undefined) return { no: `Cannot keep anything now: ${before}` };
  const nowMs = loop.options.now();
  let done: ActDone = { no: 'Cannot do this now: try again' };
  guarded(loop, () => {
    const end = turn(loop.live, [], nowMs, () => {
      done = doAct(loop.live, written, nowMs, by);
    });
    show(loop, end, []);
    if (end.committed) onCommit();
  });
  const after = ailmentOf(loop);
  return after === undefined ? done : { no: `Cannot keep this: ${after}` };
}

/** Everything derived is saved first, so that making it again costs no well more than a look at its last save. */
function handIn(loop: Loop, changes: readonly Change[]): string | undefined {
  const before = ailmentOf(loop);
  if (before !== undefined) return `Cannot keep anything now: ${before}`;
  const addsWell = changes.some(
    (one) => one.change === 'handed' && one.row.kind === 'well' && !loop.live.lines.has(one.row.well),
  );
  const full = addsWell ? wellCeiling(loop.live) : undefined;
  if (full !== undefined) return `Cannot add a well: ${full}`;
  const { options, live } = loop;
  guarded(loop, () => {
    saveAll(live, options.now());
    options.store.commit(changes);
    loop.live = loadLive(options, options.now());
    loop.live.looked = loop.viewers.size > 0;
    loop.live.counts = live.counts;
  });
  const after = ailmentOf(loop);
  return after === undefined ? undefined : `Cannot keep this: ${after}`;
}

/** Read anew: what runs in between may have failed. */
function ailmentOf(loop: Loop): string | undefined {
  return loop.ailment;
}

function letIn(loop: Loop, node: string, onCommit: () => void): string | undefined {
  const before = ailmentOf(loop);
  if (before !== undefined) return `Cannot keep anything now: ${before}`;
  const why = letNodeIn(loop.live, node, loop.options.now());
  if (why !== undefined) return why;
  beatNow(loop, onCommit);
  const after = ailmentOf(loop);
  return after === undefined ? undefined : `Cannot keep this: ${after}`;
}

function forget(loop: Loop, node: string): string | undefined {
  const before = ailmentOf(loop);
  if (before !== undefined) return `Cannot keep anything now: ${before}`;
  const { options } = loop;
  const plan = planForget(options.store, node, options.now());
  if ('no' in plan) return plan.no;
  guarded(loop, () => {
    options.store.commit(plan.changes);
    dropNode(loop.live, node);
  });
  const after = ailmentOf(loop);
  return after === undefined ? undefined : `Cannot keep this: ${after}`;
}

function ailmentsOf(loop: Loop): string[] {
  const out = loop.ailment === undefined ? [] : [loop.ailment];
  for (const line of loop.live.lines.values()) {
    if (line.fault !== undefined)
      out.push(`A fault of our own stopped the watching of ${line.well}: ${line.fault}`);
  }
  return [...out, ...ceilingAilments(loop.live)];
}

/** Shows a turn to whoever looks; nothing is made for nobody. */
function show(loop: Loop, end: TurnEnd, came: readonly Came[]): void {
  if (loop.viewers.size === 0) return;
  const tellAll = (change: LiveChange): void => {
    for (const fn of loop.viewers) fn(change);
  };
  for (const shown of loop.live.shown.splice(0)) {
    if ('alarm' in shown) tellAll({ is: 'alarm', alarm: shown.alarm });
    else for (const change of readingsOf(loop.live, shown.placed)) tellAll(change);
  }
  if (came.length > 0 || end.committed)
    for (const line of end.touched) tellAll({ is: 'well', well: line.well });
}

function readingsOf(live: LiveState, placed: PlacedPack): LiveChange[] {
  const byWell = new Map<string, LiveReadings[]>();
  if (placed.kind === 'start' || placed.timeUnknown) return [];
  for (const { channel, times, values } of placed.columns) {
    for (const feed of feedsOf(live.table, placed.node, channel)) {
      const columns = byWell.get(feed.well) ?? [];
      columns.push({ channel: channelName(feed.code), timesMs: times, values });
      byWell.set(feed.well, columns);
    }
  }
  return [...byWell].map(([well, columns]) => ({ is: 'readings', well, columns }));
}

async function close(loop: Loop): Promise<void> {
  clearInterval(loop.beater);
  clearTimeout(loop.timer);
  if (loop.queue.length > 0 && loop.ailment === undefined) {
    guarded(loop, () => turn(loop.live, loop.queue.splice(0), loop.options.now()));
  }
  loop.closed = true;
  if (loop.ailment === undefined) guarded(loop, () => saveAll(loop.live, loop.options.now()));
  for (const done of loop.waiters.splice(0)) done();
}
