/**
 * The bookkeeping of a placed pack: which packs are accounted for, how the boot's clock is to be read from now on, and whether two boxes
 * use one name. It rests on the placed pack alone, so that after a crash the kept packs make the same state again.
 */
import { countLost, countPack, countSpan, highSeq, knownPack, type BootState } from './boot.ts';
import { copyAgrees, type Placement } from './clock.ts';
import { overlappingBoot, type ConflictEvidence } from './conflict.ts';
import { addBoot, findBoot, forgetBoots, touch, type NodeState } from './node-state.ts';
import type { PlacedPack } from './placed.ts';

/** A pack stands for a day of readings at most; a longer step is a gap. */
const LONGEST_STEP_MS = 86_400_000;
/** How long a missing pack is waited for before later ones are handed on without it. */
export const HOLE_WAIT_MS = 30_000;

export type Note =
  | { note: 'clock-step' }
  | { note: 'time-unknown' }
  | { note: 'new-boot'; boot: number }
  | { note: 'lost'; packs: number };

const NOTHING: readonly Note[] = [];

/** What is remembered of a placed pack. Returns why it shows two boxes under one name, where it does. */
export function account(
  state: NodeState,
  placed: PlacedPack,
  placement: Placement,
  arrivalMs: number,
): { evidence?: ConflictEvidence; notes: readonly Note[] } {
  const { counts } = state;
  counts.placed++;
  let notes: Note[] | undefined;
  const say = (note: Note): void => void (notes ??= []).push(note);
  if (placement.clockStep) {
    counts.clockSteps++;
    say({ note: 'clock-step' });
  }
  if (placement.shiftMs !== undefined) counts.overruled++;
  if (placement.timeUnknown) {
    counts.timeUnknown++;
    say({ note: 'time-unknown' });
  }
  const evidence = placed.boot === undefined ? undefined : accountBoot(state, placed, placement, say);
  if (!placement.timeUnknown && placement.toMs > state.latestMs) {
    state.latestMs = placement.toMs;
    state.latestArrivalMs = arrivalMs;
  }
  return { ...(evidence && { evidence }), notes: notes ?? NOTHING };
}

function accountBoot(
  state: NodeState,
  placed: PlacedPack,
  placement: Placement,
  say: (note: Note) => void,
): ConflictEvidence | undefined {
  let boot = findBoot(state, placed.boot!);
  if (!boot) {
    boot = addBoot(state, placed.boot!, placed.arrivalMs);
    say({ note: 'new-boot', boot: boot.boot });
  }
  const seq = placed.seq!;
  const known = knownPack(boot, seq, placed.digest);
  const trusted = placement.shiftMs === undefined && !placement.timeUnknown;
  noteClock(boot, placed, placement);
  noteStep(state, boot, placement, seq, placed.arrivalMs);
  // Not compared with seqs that came before: the first box's bytes stay the measure.
  if (known === 'new') countPack(boot, seq, placed.digest, trusted ? placement.toMs : 0);
  if (placed.first !== undefined) {
    const lost = countLost(boot, 1, Math.min(placed.first, seq) - 1);
    state.counts.lost += lost;
    if (lost > 0) say({ note: 'lost', packs: lost });
  }
  closeHole(state, boot);
  let evidence: ConflictEvidence | undefined;
  if (known === 'other-bytes') evidence = { boot: boot.boot, seq };
  if (trusted) {
    evidence ??= overlappingBoot(state.boots, boot, placement);
    countSpan(boot, placement.fromMs, placement.toMs);
  }
  touch(state, boot, placed.arrivalMs);
  forgetBoots(state);
  return evidence;
}

/** How the boot's clock is to be read from now on. */
function noteClock(boot: BootState, placed: PlacedPack, placement: Placement): void {
  const { up, shiftMs, timeUnknown, toMs } = placement;
  if (up) {
    boot.up = up;
    boot.live = true;
    delete boot.copy;
    return;
  }
  if (timeUnknown) {
    const stale = boot.copy && copyAgrees(boot.copy, placed.upMs ?? 0, placed.arrivalMs) === 'no';
    if (stale) delete boot.copy;
    return;
  }
  const { wrong } = boot;
  const seq = placed.seq!;
  if (wrong && seq < wrong.seq) return;
  if (shiftMs !== undefined) boot.wrong = { seq, claimedMs: toMs - shiftMs, shiftMs };
  else if (wrong) delete boot.wrong;
}

/** How packs follow each other: their usual step, and which are missing just below the newest. */
function noteStep(
  state: NodeState,
  boot: BootState,
  placement: Placement,
  seq: number,
  arrivalMs: number,
): void {
  if (placement.timeUnknown) return;
  const high = highSeq(boot);
  if (seq === high + 1) {
    const stepMs = placement.toMs - state.latestMs;
    if (state.latestMs > 0 && stepMs > 0 && stepMs < LONGEST_STEP_MS) {
      state.packEveryMs += (stepMs - state.packEveryMs) / (state.packEveryMs === 0 ? 1 : 8);
    }
  } else if (seq > high && high > 0) {
    // An older hole that is still waited for is the one that counts.
    if (state.hole && arrivalMs - state.hole.sinceMs <= HOLE_WAIT_MS) return;
    state.hole = { fromSeq: high + 1, wholeToMs: state.latestMs, sinceMs: arrivalMs };
  }
}

function closeHole(state: NodeState, boot: BootState): void {
  const top = boot.ranges.at(-1);
  if (state.hole && top && top.from <= state.hole.fromSeq) delete state.hole;
}
