/**
 * The bookkeeping of a placed pack: which packs are accounted for, how the boot's clock is to be
 * read from now on, and whether two boxes use one name. It rests on the placed pack alone, so that
 * after a crash the kept packs make the same state again.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import { markLost, markReceived, extendSpan, highSeq, matchPack, type BootState } from './boot.ts';
import { retainedHelloAgrees, type Placement } from './clock.ts';
import { overlappingBoot, type ConflictEvidence } from './conflict.ts';
import { addBoot, findBoot, pruneBoots, markActive, type NodeState } from './node-state.ts';
import type { PlacedPack } from './placed-pack.ts';

/** A pack stands for a day of readings at most; a longer step is a gap. */
const MAX_STEP_MS = DAY_MS;
/** How long a missing pack is waited for before later ones are handed on without it. */
export const MISSING_PACK_WAIT_MS = 30_000;

export type IntakeEvent =
  | { event: 'clock-step' }
  | { event: 'time-unknown' }
  | { event: 'new-boot'; boot: number }
  | { event: 'lost'; packs: number };

const NO_EVENTS: readonly IntakeEvent[] = [];

/**
 * What is remembered of a placed pack. Returns why it shows two boxes under one name, where it
 * does.
 */
export function recordPack(
  state: NodeState,
  placed: PlacedPack,
  placement: Placement,
  arrivalMs: number,
): { evidence?: ConflictEvidence; events: readonly IntakeEvent[] } {
  const { counts } = state;
  counts.placed++;
  let events: IntakeEvent[] | undefined;
  const emit = (note: IntakeEvent): void => void (events ??= []).push(note);
  if (placement.clockStep) {
    counts.clockSteps++;
    emit({ event: 'clock-step' });
  }
  if (placement.shiftMs !== undefined) counts.overruled++;
  if (placement.timeUnknown) {
    counts.timeUnknown++;
    emit({ event: 'time-unknown' });
  }
  const evidence = placed.boot === undefined ? undefined : recordInBoot(state, placed, placement, emit);
  if (!placement.timeUnknown && placement.toMs > state.latestMs) {
    state.latestMs = placement.toMs;
    state.latestArrivalMs = arrivalMs;
  }
  return { ...(evidence && { evidence }), events: events ?? NO_EVENTS };
}

function recordInBoot(
  state: NodeState,
  placed: PlacedPack,
  placement: Placement,
  emit: (note: IntakeEvent) => void,
): ConflictEvidence | undefined {
  let boot = findBoot(state, placed.boot!);
  if (!boot) {
    boot = addBoot(state, placed.boot!, placed.arrivalMs);
    emit({ event: 'new-boot', boot: boot.boot });
  }
  const seq = placed.seq!;
  const match = matchPack(boot, seq, placed.digest);
  const trusted = placement.shiftMs === undefined && !placement.timeUnknown;
  updateClock(boot, placed, placement);
  updateStep(state, boot, placement, seq, placed.arrivalMs);
  // Not compared with seqs that came before: the first box's bytes stay the measure.
  if (match === 'new') markReceived(boot, seq, placed.digest, trusted ? placement.toMs : 0);
  if (placed.first !== undefined) {
    const lost = markLost(boot, 1, Math.min(placed.first, seq) - 1);
    state.counts.lost += lost;
    if (lost > 0) emit({ event: 'lost', packs: lost });
  }
  clearMissing(state, boot);
  let evidence: ConflictEvidence | undefined;
  if (match === 'other-bytes') evidence = { boot: boot.boot, seq };
  if (trusted) {
    evidence ??= overlappingBoot(state.boots, boot, placement);
    extendSpan(boot, placement.fromMs, placement.toMs);
  }
  markActive(state, boot, placed.arrivalMs);
  pruneBoots(state);
  return evidence;
}

/** How the boot's clock is to be read from now on. */
function updateClock(boot: BootState, placed: PlacedPack, placement: Placement): void {
  const { upClock, shiftMs, timeUnknown, toMs } = placement;
  if (upClock) {
    boot.upClock = upClock;
    boot.live = true;
    delete boot.retainedHello;
    return;
  }
  if (timeUnknown) {
    const stale =
      boot.retainedHello &&
      retainedHelloAgrees(boot.retainedHello, placed.upMs ?? 0, placed.arrivalMs) === 'no';
    if (stale) delete boot.retainedHello;
    return;
  }
  const { overruled } = boot;
  const seq = placed.seq!;
  if (overruled && seq < overruled.seq) return;
  if (shiftMs !== undefined) boot.overruled = { seq, claimedMs: toMs - shiftMs, shiftMs };
  else if (overruled) delete boot.overruled;
}

/** How packs follow each other: their usual step, and which are missing just below the newest. */
function updateStep(
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
    if (state.latestMs > 0 && stepMs > 0 && stepMs < MAX_STEP_MS) {
      state.packIntervalMs += (stepMs - state.packIntervalMs) / (state.packIntervalMs === 0 ? 1 : 8);
    }
  } else if (seq > high && high > 0) {
    // An older hole that is still waited for is the one that counts.
    if (state.missingPacks && arrivalMs - state.missingPacks.sinceMs <= MISSING_PACK_WAIT_MS) return;
    state.missingPacks = { fromSeq: high + 1, completeToMs: state.latestMs, sinceMs: arrivalMs };
  }
}

function clearMissing(state: NodeState, boot: BootState): void {
  const top = boot.ranges.at(-1);
  if (state.missingPacks && top && top.from <= state.missingPacks.fromSeq) delete state.missingPacks;
}
