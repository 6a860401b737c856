/**
 * What the live server holds in memory: its nodes, its wells, who feeds whom, and what waits for
 * the next commit. All of it can be made again from the store.
 */
import type { Card } from '../../core/domain/card.ts';
import { newFleet, type Fleet, type FleetNode } from '../../core/fleet/fleet.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import type { AlarmChange } from '../../core/notify/decide-notices.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { AlarmRow, Change, IgnoredNames, NoticeRow, Store } from '../../store/store.ts';
import type { Ceiling } from './ceiling.ts';

export interface NodeEntry extends FleetNode {
  approved: boolean;
  /** `kept` should go out, and when it last did, by our clock. */
  ackDue: boolean;
  ackSentAtMs: number;
  savedAtMs: number;
  unsaved: boolean;
  /** When a pack of this node, which waits to be let in, was last kept for a look. */
  rejectionRecordedMs?: number;
  /**
   * Names that it spoke for and that do not count: how many came in all its hellos, and the last
   * one's sentence.
   */
  ignored?: IgnoredNames;
  /** When a hello of this node with such names was last kept for a look. */
  ignoredShownMs?: number;
}

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
  nodes: Map<string, NodeEntry>;
  /** What the running turn will commit. */
  changes: Change[];
  /** Wells that something came for, and nodes whose books are to be saved, in the running turn. */
  dirtyWells: Set<WellPipeline>;
  dirtyNodes: Set<string>;
  counts: LiveCounts;
  /**
   * Nothing is due before this though no message comes; worked out at the end of each turn.
   * -Infinity after any other change.
   */
  wakeAtMs: number;
  /** No well or node is saved by time alone before this, so that many saves share a commit. */
  savesFromMs: number;
  /** Of the running turn, for whoever looks; emptied by the loop. */
  liveEvents: ({ placed: PlacedPack } | { alarm: AlarmRow })[];
  /** When a message of a node beyond the ceiling was last kept for a look. */
  ceilingShownMs?: number;
  /** Somebody looks: only then `liveEvents` is filled. */
  hasViewers: boolean;
}

export function newLiveState(options: LiveOptions): LiveState {
  return {
    ...newFleet(),
    options,
    nodes: new Map(),
    changes: [],
    dirtyWells: new Set(),
    liveEvents: [],
    hasViewers: false,
    dirtyNodes: new Set(),
    wakeAtMs: Number.NEGATIVE_INFINITY,
    savesFromMs: Number.NEGATIVE_INFINITY,
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
