/**
 * What is remembered of a node between messages: plain data, about 3 KiB as JSON at most (MAX_BOOTS boots, MAX_RANGES ranges each, digests
 * of two boots).
 */
import { newBoot, type BootState } from './boot.ts';
import type { Conflict } from './conflict.ts';
import type { NewsItem } from './news.ts';
import { newHearing, type Hearing } from './silence.ts';

/**
 * Boots remembered. The ones touched longest ago are forgotten first, and nothing is lost by it: a boot that is forgotten is no longer
 * in `kept`, so its node sends again what it still holds of it; that comes as new, falls on the same times, and counts once.
 * The last ones touched are always in the next `kept`, so a node that holds more boots than this gets rid of them 8 at a time.
 */
const MAX_BOOTS = 8;
/** Boots whose bytes can be compared: two boxes that count their boots from 1 are near each other. */
const BOOTS_WITH_DIGESTS = 2;
export interface NodeCounts {
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
  /** The boot of its newest hello; 0 where it said none. */
  helloBoot: number;
  /** Build date of its firmware, Unix ms; 0 where it said none. */
  builtMs: number;
  /** Time of its newest reading, and when the pack came that brought it. */
  latestMs: number;
  latestArrivalMs: number;
  /** Usual step from pack to pack, in the time of readings. */
  packEveryMs: number;
  /** While packs are missing just below the newest: up to when readings are whole, and since when that is so. */
  hole?: { fromSeq: number; wholeToMs: number; sinceMs: number };
  conflict?: Conflict;
  hearing: Hearing;
  counts: NodeCounts;
  /** News not yet taken. */
  news: NewsItem[];
}

export function newNode(node: string): NodeState {
  return {
    node,
    boots: [],
    helloBoot: 0,
    builtMs: 0,
    latestMs: 0,
    latestArrivalMs: 0,
    packEveryMs: 0,
    hearing: newHearing(),
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
  state.boots.push(boot);
  return boot;
}

export function touch(state: NodeState, boot: BootState, arrivalMs: number): void {
  boot.touchedMs = arrivalMs;
  const { boots } = state;
  if (boots.at(-1) === boot) return;
  boots.splice(boots.indexOf(boot), 1);
  boots.push(boot);
  for (let i = 0; i < boots.length - BOOTS_WITH_DIGESTS; i++) delete boots[i]!.digests;
}

export function forgetBoots(state: NodeState): void {
  const { boots } = state;
  for (let i = 0; i < boots.length - BOOTS_WITH_DIGESTS; i++) delete boots[i]!.digests;
  while (boots.length > MAX_BOOTS) {
    const oldest = boots.findIndex((boot) => boot.boot !== state.helloBoot);
    boots.splice(oldest, 1);
  }
}
