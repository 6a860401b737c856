/**
 * The intake of one node: each message that came from it, in the order of arrival, becomes a placed pack, a duplicate, or news. What is
 * remembered (./node-state.ts) is updated in place.
 * After a crash it is made again from its last save (save it whenever a hello changed it) and the packs kept since, by `applyKept`.
 */
import type { Hello, Pack, Presence } from '../wire/messages.ts';
import { account, type Note } from './account.ts';
import { countLost, countPack, highSeq, knownPack } from './boot.ts';
import { placePack, spanOf, type Placement } from './clock.ts';
import { passConflict, seeConflict } from './conflict.ts';
import { countsFrom, fullScaleNews, hearFullScale } from './full-scale.ts';
import type { NewsItem } from './news.ts';
import { addBoot, findBoot, forgetBoots, recallBoot, touch, type NodeState } from './node-state.ts';
import type { PlacedPack } from './placed.ts';
import { excuseSilence, hear, hearPresence, hearPromise, passSilence } from './silence.ts';
import { seeUp } from './up-clock.ts';

export { newNode, type NodeState } from './node-state.ts';
export type { Note } from './account.ts';

export type Receipt =
  | { is: 'placed'; placed: PlacedPack; notes: readonly Note[] }
  | { is: 'duplicate' }
  /** Kept like any other; another box sends under this name. */
  | { is: 'conflict'; placed: PlacedPack; notes: readonly Note[] };

/** A checked pack came at `arrivalMs`. */
export function receivePack(state: NodeState, pack: Pack, arrivalMs: number): Receipt {
  passTime(state, arrivalMs);
  hear(state.hearing, state.node, arrivalMs, state.news);
  const boot = pack.boot === undefined ? undefined : recallBoot(state, pack.boot, arrivalMs);
  if (boot && pack.seq !== undefined) {
    const known = knownPack(boot, pack.seq, pack.digest);
    // While two boxes use the name, a pack that can't be compared may be either's: kept, and merged away if it came before.
    if (known === 'same' || (known === 'unsure' && !state.conflict)) {
      state.counts.duplicates++;
      // It may say again what its node holds no more: of a boot that was forgotten meanwhile, nobody else says it.
      if (pack.first !== undefined)
        state.counts.lost += countLost(boot, 1, Math.min(pack.first, pack.seq) - 1);
      touch(state, boot, arrivalMs);
      forgetBoots(state);
      return { is: 'duplicate' };
    }
  }
  const placement = placePack(pack, boot, arrivalMs, state.builtMs);
  const placed = placedPack(pack, placement, arrivalMs);
  const done = account(state, placed, placement, arrivalMs);
  if (done.evidence) {
    state.counts.conflicts++;
    state.conflict = seeConflict(state.conflict, state.node, arrivalMs, done.evidence, state.news);
    return { is: 'conflict', placed, notes: done.notes };
  }
  return { is: 'placed', placed, notes: done.notes };
}

/**
 * The same bookkeeping for a pack that was placed before a crash, in the order in which packs came. Makes no news: what was told then is
 * kept by itself.
 */
export function applyKept(state: NodeState, placed: PlacedPack): void {
  const { arrivalMs } = placed;
  const boot = placed.boot === undefined ? undefined : recallBoot(state, placed.boot, arrivalMs);
  const known = placed.upMs !== undefined && placed.boot !== undefined && !placed.timeUnknown;
  const copy = boot && !boot.live && !boot.up ? boot.copy : undefined;
  const before = boot?.up ?? (copy && seeUp(undefined, copy.upMs, copy.arrivalMs));
  const placement: Placement = {
    columns: placed.columns,
    ...spanOf(placed.columns),
    ...(known && { up: seeUp(before, placed.upMs!, arrivalMs) }),
    ...(placed.shiftMs !== undefined && { shiftMs: placed.shiftMs }),
    ...(placed.clockStep && { clockStep: true }),
    ...(placed.timeUnknown && { timeUnknown: true }),
  };
  // What these would tell was told, and kept, before the crash.
  const told: NewsItem[] = [];
  passTime(state, arrivalMs, told);
  hear(state.hearing, state.node, arrivalMs, told);
  const done = account(state, placed, placement, arrivalMs);
  if (!done.evidence) return;
  state.counts.conflicts++;
  state.conflict = seeConflict(state.conflict, state.node, arrivalMs, done.evidence, told);
}

/** A pack was refused whose boot and seq could be read: nothing more is wanted of it. */
export function noteRefused(state: NodeState, bootNumber: number, seq: number, arrivalMs: number): void {
  const boot = findBoot(state, bootNumber) ?? addBoot(state, bootNumber, arrivalMs);
  if (knownPack(boot, seq, -1) === 'new') countPack(boot, seq, -1, 0);
  touch(state, boot, arrivalMs);
  forgetBoots(state);
}

/** A hello came; `retained` marks a copy that the broker had kept. */
export function receiveHello(state: NodeState, hello: Hello, retained: boolean, arrivalMs: number): Note[] {
  passTime(state, arrivalMs);
  if (!retained) hear(state.hearing, state.node, arrivalMs, state.news);
  hearPromise(state.hearing, hello);
  const builtMs = hello.built === undefined ? Number.NaN : Date.parse(hello.built);
  state.builtMs = Number.isFinite(builtMs) ? builtMs : 0;
  const scale = hearFullScale(state.fullScale, hello, arrivalMs, state.news);
  if (scale) state.fullScale = scale;
  const notes: Note[] = [];
  if (hello.boot !== undefined) helloOfBoot(state, hello, hello.boot, retained, arrivalMs, notes);
  // A copy may be older than packs that came since; what it says is lost was only lost then.
  if (hello.held && !retained) {
    const lost = giveUp(state, hello.held, hello.boot);
    if (lost > 0) notes.push({ note: 'lost', packs: lost });
  }
  return notes;
}

function helloOfBoot(
  state: NodeState,
  hello: Hello,
  number: number,
  retained: boolean,
  arrivalMs: number,
  notes: Note[],
): void {
  let boot = findBoot(state, number);
  if (!boot) {
    boot = addBoot(state, number, arrivalMs);
    notes.push({ note: 'new-boot', boot: number });
  }
  state.helloBoot = number;
  if (!retained) {
    boot.live = true;
    delete boot.copy;
    if (hello.upMs !== undefined) boot.up = seeUp(boot.up, hello.upMs, arrivalMs);
  } else if (!boot.live && hello.upMs !== undefined) {
    boot.copy = { arrivalMs, upMs: hello.upMs };
  }
  touch(state, boot, arrivalMs);
  forgetBoots(state);
}

/** What a node no longer holds and never came is lost (contract, sections 2 and 3). Returns how many packs that is. */
function giveUp(state: NodeState, held: NonNullable<Hello['held']>, helloBoot: number | undefined): number {
  let lost = 0;
  for (const boot of state.boots) {
    const mine = held.filter((range) => range.boot === boot.boot).sort((a, b) => a.from - b.from);
    // The running boot is named only once it has something; an earlier one that is not named is gone.
    if (mine.length === 0 && (helloBoot === undefined || boot.boot === helloBoot)) continue;
    let next = 1;
    for (const range of mine) {
      lost += countLost(boot, next, range.from - 1);
      next = Math.max(next, range.to + 1);
    }
    if (mine.length === 0) lost += countLost(boot, 1, highSeq(boot));
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
  passTime(state, arrivalMs);
  hearPresence(state.hearing, { node: state.node, presence, retained }, arrivalMs, state.news);
}

/** A well may read from this node since `nowMs`, or for the first time (undefined), that did not hear what its hello said. */
export function tellWellsAgain(state: NodeState, nowMs?: number): void {
  const scale = state.fullScale;
  if (!scale) return;
  state.news.push(fullScaleNews(scale, state.node, nowMs === undefined ? scale.atMs : countsFrom(nowMs)));
}

/** The server was away: what falls silent meanwhile is nobody's fault. */
export function excuseAway(state: NodeState, fromMs: number, untilMs: number): void {
  excuseSilence(state.hearing, state.node, { fromMs, untilMs }, state.news);
}

/** News up to `nowMs`, in the order of their times, each once. */
export function takeNews(state: NodeState, nowMs: number): NewsItem[] {
  passTime(state, nowMs);
  const { news } = state;
  if (news.length > 0) state.news = [];
  return news;
}

function passTime(state: NodeState, nowMs: number, news: NewsItem[] = state.news): void {
  passSilence(state.hearing, state.node, nowMs, news);
  if (!state.conflict) return;
  if (!passConflict(state.conflict, state.node, nowMs, news)) delete state.conflict;
}

function placedPack(pack: Pack, placement: Placement, arrivalMs: number): PlacedPack {
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
