/**
 * What is remembered of a node between messages: plain data, 1.4 KiB as JSON as a rule and about 5
 * KiB at worst (MAX_BOOTS boots, the ranges and digests of two of them in full).
 */
import { newBoot, type BootState } from './boot.ts';
import type { Conflict } from './conflict.ts';
import type { FullScale } from './full-scale.ts';
import type { NewsItem } from './news.ts';
import { limitRanges } from './seq-ranges.ts';
import { newLiveness, type Liveness } from './silence.ts';
import type { UpClock } from './up-clock.ts';

/**
 * Boots remembered. The ones touched longest ago are forgotten first, and nothing is lost by it: a
 * boot that is forgotten is no longer in `kept`, so its node sends again what it still holds of it;
 * that comes as new, falls on the same times, and counts once. The last ones touched are always in
 * the next `kept`, so a node that holds more boots than this gets rid of them 8 at a time.
 */
const MAX_BOOTS = 8;
/**
 * Boots remembered in full: their bytes can be compared, since two boxes that count their boots
 * from 1 are near each other.
 */
const MAX_FULL_BOOTS = 2;
/** Of the others only so many ranges: a hole in an old boot is filled from its lower end. */
const MAX_RANGES_OF_OLD_BOOT = 4;
/**
 * Of boots forgotten, when they began is remembered longer: a node without a clock may send packs
 * of theirs that never came.
 */
const MAX_FORGOTTEN_BOOTS = 16;

interface NodeCounts {
  placed: number;
  duplicates: number;
  conflicts: number;
  clockSteps: number;
  overruled: number;
  timeUnknown: number;
  lost: number;
}

export interface NodeState {
  node: string;
  /** In the order in which they were touched, the last one last. */
  boots: BootState[];
  /** Boots forgotten that were heard live without a clock, the last one last. */
  forgottenBoots: { boot: number; up: UpClock }[];
  /** The boot of its newest hello; 0 where it said none. */
  helloBoot: number;
  /** Build date of its firmware, Unix ms; 0 where it said none. */
  builtMs: number;
  /** Time of its newest reading, and when the pack came that brought it. */
  latestMs: number;
  latestArrivalMs: number;
  /** Usual step from pack to pack, in the time of readings. */
  packIntervalMs: number;
  /**
   * While packs are missing just below the newest: up to when readings are whole, and since when
   * that is so.
   */
  missingPacks?: { fromSeq: number; completeToMs: number; sinceMs: number };
  conflict?: Conflict;
  /** Where its hello said what its sensors can show. */
  fullScale?: FullScale;
  liveness: Liveness;
  counts: NodeCounts;
  /** News not yet taken. */
  news: NewsItem[];
}

export function newNode(node: string): NodeState {
  return {
    node,
    boots: [],
    forgottenBoots: [],
    helloBoot: 0,
    builtMs: 0,
    latestMs: 0,
    latestArrivalMs: 0,
    packIntervalMs: 0,
    liveness: newLiveness(),
    counts: { placed: 0, duplicates: 0, conflicts: 0, clockSteps: 0, overruled: 0, timeUnknown: 0, lost: 0 },
    news: [],
  };
}

export function findBoot(state: NodeState, number: number): BootState | undefined {
  for (let i = state.boots.length - 1; i >= 0; i--)
    if (state.boots[i]!.boot === number) return state.boots[i];
  return undefined;
}

export function addBoot(state: NodeState, number: number, arrivalMs: number): BootState {
  const boot = newBoot(number, arrivalMs);
  const began = state.forgottenBoots.find((known) => known.boot === number);
  if (began) {
    boot.live = true;
    boot.upClock = began.up;
  }
  state.boots.push(boot);
  return boot;
}

/** The boot as it is known, or as far as it is remembered after it was forgotten. */
export function recallBoot(state: NodeState, number: number, arrivalMs: number): BootState | undefined {
  const known = findBoot(state, number);
  if (known || !state.forgottenBoots.some((began) => began.boot === number)) return known;
  return addBoot(state, number, arrivalMs);
}

export function markActive(state: NodeState, boot: BootState, arrivalMs: number): void {
  boot.lastActivityMs = arrivalMs;
  const { boots } = state;
  if (boots.at(-1) === boot) return;
  boots.splice(boots.indexOf(boot), 1);
  boots.push(boot);
}

/** Keeps the state small; called after each change of the boots or their order. */
export function pruneBoots(state: NodeState): void {
  const { boots } = state;
  while (boots.length > MAX_BOOTS) {
    const oldest = boots.findIndex((boot) => boot.boot !== state.helloBoot);
    const [gone] = boots.splice(oldest, 1);
    if (gone?.upClock && gone.live) rememberForgotten(state, gone.boot, gone.upClock);
  }
  for (let i = 0; i < boots.length - MAX_FULL_BOOTS; i++) {
    const boot = boots[i]!;
    if (boot.digests === undefined) continue;
    delete boot.digests;
    limitRanges(boot.ranges, MAX_RANGES_OF_OLD_BOOT);
  }
}

function rememberForgotten(state: NodeState, boot: number, up: UpClock): void {
  state.forgottenBoots = [...state.forgottenBoots.filter((known) => known.boot !== boot), { boot, up }].slice(
    -MAX_FORGOTTEN_BOOTS,
  );
}
