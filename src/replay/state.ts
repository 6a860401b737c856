/**
 * What a replay holds at once: the wells with a week of readings that may still change, their
 * nodes, and lines that wait to be printed.
 */
import type { Card } from '../core/domain/card.ts';
import { newFleet, type Fleet } from '../core/fleet/fleet.ts';
import { addWell } from '../core/fleet/routing.ts';
import { newEventQueue, type EventQueue } from './event-queue.ts';

interface ReplayCounts {
  lines: number;
  messages: number;
  acts: number;
  packs: number;
  readings: number;
  duplicates: number;
  tooLate: number;
  refused: Map<string, number>;
  ignored: Map<string, number>;
  /** What could not be used of acts, the first few in words. */
  problems: string[];
  badActs: number;
}

export interface Replay extends Fleet {
  /** Well -> the node that its cards read by default. */
  defaultNodes: ReadonlyMap<string, string>;
  eventQueue: EventQueue;
  /** Arrival of the latest line. */
  nowMs: number;
  /** Nothing up to here can change any more. */
  settledMs: number;
  counts: ReplayCounts;
  /** Faults of our own. */
  faults: string[];
}

export function newReplay(cards: readonly Card[], readsBy: ReadonlyMap<string, string>): Replay {
  const replay: Replay = {
    ...newFleet({ runsOnce: true }),
    defaultNodes: readsBy,
    eventQueue: newEventQueue(),
    nowMs: Number.NEGATIVE_INFINITY,
    settledMs: Number.NEGATIVE_INFINITY,
    counts: {
      lines: 0,
      messages: 0,
      acts: 0,
      packs: 0,
      readings: 0,
      duplicates: 0,
      tooLate: 0,
      refused: new Map(),
      ignored: new Map(),
      problems: [],
      badActs: 0,
    },
    faults: [],
  };
  for (const card of cards) addWell(replay, card);
  return replay;
}

export function increment(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}
