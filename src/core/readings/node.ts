/**
 * The intake of one node: each message that came from it, in the order of arrival, becomes a placed
 * pack, a duplicate, or news. What is remembered (./node-state.ts) is updated in place. After a
 * crash it is made again from its last save (save it whenever a hello changed it) and the packs
 * kept since, by `applyStoredPack`.
 */
import type { Hello, Pack, Presence } from '../decode/messages.ts';
import { recordPack, type IntakeEvent } from './record-pack.ts';
import { markLost, markReceived, highSeq, matchPack } from './boot.ts';
import { placePack, spanOf, type Placement } from './clock.ts';
import { advanceConflict, recordConflict } from './conflict.ts';
import { effectiveFromMs, fullScaleNews, updateFullScale } from './full-scale.ts';
import type { NewsItem } from './news.ts';
import { addBoot, findBoot, pruneBoots, recallBoot, markActive, type NodeState } from './node-state.ts';
import type { PlacedPack } from './placed-pack.ts';
import { discountOutage, markHeard, applyPresence, applyHelloIntervals, advanceSilence } from './silence.ts';
import { updateUpClock } from './up-clock.ts';

export { newNode, type NodeState } from './node-state.ts';

export type Receipt =
  | { is: 'placed'; placed: PlacedPack; events: readonly IntakeEvent[] }
  | { is: 'duplicate' }
  /** Kept like any other; another box sends under this name. */
  | { is: 'conflict'; placed: PlacedPack; events: readonly IntakeEvent[] };

/** A checked pack came at `arrivalMs`. */
export function receivePack(state: NodeState, pack: Pack, arrivalMs: number): Receipt {
  advanceTo(state, arrivalMs);
  markHeard(state.liveness, state.node, arrivalMs, state.news);
  const boot = pack.boot === undefined ? undefined : recallBoot(state, pack.boot, arrivalMs);
  if (boot && pack.seq !== undefined) {
    const match = matchPack(boot, pack.seq, pack.digest);
    // While two boxes use the name, a pack that can't be compared may be either's: kept, and merged
    // away if it came before.
    if (match === 'same' || (match === 'unknown' && !state.conflict)) {
      state.counts.duplicates++;
      // It may say again what its node holds no more: of a boot that was forgotten meanwhile,
      // nobody else says it.
      if (pack.first !== undefined)
        state.counts.lost += markLost(boot, 1, Math.min(pack.first, pack.seq) - 1);
      markActive(state, boot, arrivalMs);
      pruneBoots(state);
      return { is: 'duplicate' };
    }
  }
  const placement = placePack(pack, boot, arrivalMs, state.builtMs);
  const placed = buildPlacedPack(pack, placement, arrivalMs);
  const done = recordPack(state, placed, placement, arrivalMs);
  if (done.evidence) {
    state.counts.conflicts++;
    state.conflict = recordConflict(state.conflict, state.node, arrivalMs, done.evidence, state.news);
    return { is: 'conflict', placed, events: done.events };
  }
  return { is: 'placed', placed, events: done.events };
}

/**
 * The same bookkeeping for a pack that was placed before a crash, in the order in which packs came.
 * Makes no news: what was told then is kept by itself.
 */
export function applyStoredPack(state: NodeState, placed: PlacedPack): void {
  const { arrivalMs } = placed;
  const boot = placed.boot === undefined ? undefined : recallBoot(state, placed.boot, arrivalMs);
  const known = placed.upMs !== undefined && placed.boot !== undefined && !placed.timeUnknown;
  const retainedHello = boot && !boot.live && !boot.upClock ? boot.retainedHello : undefined;
  const before =
    boot?.upClock ?? (retainedHello && updateUpClock(undefined, retainedHello.upMs, retainedHello.arrivalMs));
  const placement: Placement = {
    columns: placed.columns,
    ...spanOf(placed.columns),
    ...(known && { upClock: updateUpClock(before, placed.upMs!, arrivalMs) }),
    ...(placed.shiftMs !== undefined && { shiftMs: placed.shiftMs }),
    ...(placed.clockStep && { clockStep: true }),
    ...(placed.timeUnknown && { timeUnknown: true }),
  };
  // What these would tell was told, and kept, before the crash.
  const discarded: NewsItem[] = [];
  advanceTo(state, arrivalMs, discarded);
  markHeard(state.liveness, state.node, arrivalMs, discarded);
  const done = recordPack(state, placed, placement, arrivalMs);
  if (!done.evidence) return;
  state.counts.conflicts++;
  state.conflict = recordConflict(state.conflict, state.node, arrivalMs, done.evidence, discarded);
}

/** A pack was refused whose boot and seq could be read: nothing more is wanted of it. */
export function recordRefused(state: NodeState, bootNumber: number, seq: number, arrivalMs: number): void {
  const boot = findBoot(state, bootNumber) ?? addBoot(state, bootNumber, arrivalMs);
  if (matchPack(boot, seq, -1) === 'new') markReceived(boot, seq, -1, 0);
  markActive(state, boot, arrivalMs);
  pruneBoots(state);
}

/** A hello came; `retained` marks a copy that the broker had kept. */
export function receiveHello(
  state: NodeState,
  hello: Hello,
  retained: boolean,
  arrivalMs: number,
): IntakeEvent[] {
  advanceTo(state, arrivalMs);
  if (!retained) markHeard(state.liveness, state.node, arrivalMs, state.news);
  applyHelloIntervals(state.liveness, hello);
  const builtMs = hello.built === undefined ? Number.NaN : Date.parse(hello.built);
  state.builtMs = Number.isFinite(builtMs) ? builtMs : 0;
  const scale = updateFullScale(state.fullScale, hello, arrivalMs, state.news);
  if (scale) state.fullScale = scale;
  const events: IntakeEvent[] = [];
  if (hello.boot !== undefined) applyBootHello(state, hello, hello.boot, retained, arrivalMs, events);
  // A copy may be older than packs that came since; what it says is lost was only lost then.
  if (hello.held && !retained) {
    const lost = markUnheldLost(state, hello.held, hello.boot);
    if (lost > 0) events.push({ event: 'lost', packs: lost });
  }
  return events;
}

function applyBootHello(
  state: NodeState,
  hello: Hello,
  number: number,
  retained: boolean,
  arrivalMs: number,
  events: IntakeEvent[],
): void {
  let boot = findBoot(state, number);
  if (!boot) {
    boot = addBoot(state, number, arrivalMs);
    events.push({ event: 'new-boot', boot: number });
  }
  state.helloBoot = number;
  if (!retained) {
    boot.live = true;
    delete boot.retainedHello;
    if (hello.upMs !== undefined) boot.upClock = updateUpClock(boot.upClock, hello.upMs, arrivalMs);
  } else if (!boot.live && hello.upMs !== undefined) {
    boot.retainedHello = { arrivalMs, upMs: hello.upMs };
  }
  markActive(state, boot, arrivalMs);
  pruneBoots(state);
}

/**
 * What a node no longer holds and never came is lost (contract, sections 2 and 3). Returns how many
 * packs that is.
 */
function markUnheldLost(
  state: NodeState,
  held: NonNullable<Hello['held']>,
  helloBoot: number | undefined,
): number {
  let lost = 0;
  for (const boot of state.boots) {
    const mine = held.filter((range) => range.boot === boot.boot).sort((a, b) => a.from - b.from);
    // The running boot is named only once it has something; an earlier one that is not named is
    // gone.
    if (mine.length === 0 && (helloBoot === undefined || boot.boot === helloBoot)) continue;
    let next = 1;
    for (const range of mine) {
      lost += markLost(boot, next, range.from - 1);
      next = Math.max(next, range.to + 1);
    }
    if (mine.length === 0) lost += markLost(boot, 1, highSeq(boot));
  }
  state.counts.lost += lost;
  return lost;
}

export function receivePresence(
  state: NodeState,
  presence: Presence,
  retained: boolean,
  arrivalMs: number,
): void {
  advanceTo(state, arrivalMs);
  applyPresence(state.liveness, { node: state.node, presence, retained }, arrivalMs, state.news);
}

/**
 * A well may read from this node since `nowMs`, or for the first time (undefined), that did not
 * hear what its hello said.
 */
export function republishFullScale(state: NodeState, nowMs?: number): void {
  const scale = state.fullScale;
  if (!scale) return;
  state.news.push(
    fullScaleNews(scale, state.node, nowMs === undefined ? scale.atMs : effectiveFromMs(nowMs)),
  );
}

/** The server was away: what falls silent meanwhile is nobody's fault. */
export function excuseServerOutage(state: NodeState, fromMs: number, untilMs: number): void {
  discountOutage(state.liveness, state.node, { fromMs, untilMs }, state.news);
}

/** News up to `nowMs`, in the order of their times, each once. */
export function drainNews(state: NodeState, nowMs: number): NewsItem[] {
  advanceTo(state, nowMs);
  const { news } = state;
  if (news.length > 0) state.news = [];
  return news;
}

function advanceTo(state: NodeState, nowMs: number, news: NewsItem[] = state.news): void {
  advanceSilence(state.liveness, state.node, nowMs, news);
  if (!state.conflict) return;
  if (!advanceConflict(state.conflict, state.node, nowMs, news)) delete state.conflict;
}

function buildPlacedPack(pack: Pack, placement: Placement, arrivalMs: number): PlacedPack {
  return {
    node: pack.node,
    kind: pack.kind,
    ...(pack.boot !== undefined && { boot: pack.boot }),
    ...(pack.seq !== undefined && { seq: pack.seq }),
    ...(pack.first !== undefined && { first: pack.first }),
    arrivalMs,
    columns: placement.columns,
    digest: pack.digest,
    ...(pack.upMs !== undefined && { upMs: pack.upMs }),
    ...(placement.shiftMs !== undefined && { shiftMs: placement.shiftMs }),
    ...(placement.clockStep && { clockStep: true }),
    ...(placement.timeUnknown && { timeUnknown: true }),
  };
}
