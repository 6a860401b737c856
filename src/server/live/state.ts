/**
 * What the live server holds in memory: its nodes, its wells, who feeds whom, and what waits for
 * the next commit. All of it can be made again from the store.
 */
import type { Card } from '../../core/domain/card.ts';
import type { Ceiling } from '../../core/fleet/ceiling.ts';
import { newFleet, type Fleet } from '../../core/fleet/fleet.ts';
import type { AlarmChange } from '../../core/notify/decide-notices.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { AlarmRow, Change, NoticeRow, Store } from '../../store/store.ts';
import { CEILING } from './ceiling.ts';

/**
 * What is told of a change of an alarm, decided by who is told in the settings; `cards` are the
 * newest ones.
 */
export type Notifier = (
  change: AlarmChange,
  now: { nowMs: number; cards: ReadonlyMap<string, Card> },
) => NoticeRow[];

export interface LiveOptions {
  store: Store;
  /** First part of the topics. */
  root: string;
  /** Listen and evaluate, never publish `kept` or `ask`. */
  observe: boolean;
  /** Whoever may publish is let in: the built-in broker has asked for its credential already. */
  approveAll: boolean;
  /** What one server takes at most; CEILING where not given. */
  most?: Ceiling;
  /** What a command needs to find the data of this server, for sentences that name a command. */
  commandOptions?: string;
  now: () => number;
  publish: (topic: string, payload: string, how: { qos: 0 | 1; retain: boolean }) => void;
  notify: Notifier;
  /** One sentence for the log. */
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
}

/** Counted since the start, for /metrics. */
export interface LiveCounts {
  messages: number;
  packs: number;
  duplicates: number;
  readings: number;
  refused: number;
  tooLate: number;
  reruns: number;
  /** Times that something was due by time alone, and wells passed on. */
  wakes: number;
  advances: number;
  commits: number;
  commitMs: number;
}

export interface LiveState extends Fleet {
  options: LiveOptions;
  /** What the running turn will commit, and nodes whose state is to be saved with it. */
  changes: Change[];
  dirtyNodes: Set<string>;
  counts: LiveCounts;
  /** Of the running turn, for whoever looks; emptied by the loop. */
  liveEvents: ({ placed: PlacedPack } | { alarm: AlarmRow })[];
  /** Somebody looks: only then `liveEvents` is filled. */
  hasViewers: boolean;
}

export function newLiveState(options: LiveOptions): LiveState {
  const { approveAll, observe, most } = options;
  return {
    ...newFleet({ approveAll, acknowledges: !observe, ceiling: most ?? CEILING }),
    options,
    changes: [],
    dirtyNodes: new Set(),
    liveEvents: [],
    hasViewers: false,
    counts: {
      messages: 0,
      packs: 0,
      duplicates: 0,
      readings: 0,
      refused: 0,
      tooLate: 0,
      reruns: 0,
      wakes: 0,
      advances: 0,
      commits: 0,
      commitMs: 0,
    },
  };
}
