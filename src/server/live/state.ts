/**
 * What the live server holds in memory: its nodes, its wells, who feeds whom, and what waits for the next commit. All of it can be
 * made again from the store.
 */
import type { Act } from '../../core/domain/act.ts';
import type { Card } from '../../core/domain/card.ts';
import type { Feed, ReadTable } from '../../core/domain/sources.ts';
import type { AlarmChange } from '../../core/notify/decide-notices.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { NodeState } from '../../core/readings/node.ts';
import type { SiteState } from '../../core/readings/site-silence.ts';
import type { AlarmRow, Change, IgnoredNames, NoticeRow, Store } from '../../store/store.ts';
import type { Hello } from '../../core/decode/messages.ts';
import {
  addToReadTable,
  readTableFromPeriods,
  type MutableReadTable,
  type Period,
} from '../../core/fleet/read-table.ts';
import type { Ceiling } from './ceiling.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';

export interface NodeEntry {
  state: NodeState;
  approved: boolean;
  hello?: Hello;
  /** `kept` should go out, and when it last did, by our clock. */
  ackDue: boolean;
  ackSentAtMs: number;
  savedAtMs: number;
  unsaved: boolean;
  /** When a pack of this node, which waits to be let in, was last kept for a look. */
  rejectionRecordedMs?: number;
  /** Names that it spoke for and that do not count: how many came in all its hellos, and the last one's sentence. */
  ignored?: IgnoredNames;
  /** When a hello of this node with such names was last kept for a look. */
  ignoredShownMs?: number;
}

/** What is told of a change of an alarm, decided by who is told in the settings; `cards` are the newest ones. */
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
  commits: number;
  commitMs: number;
}

/** One channel of a node that feeds a well for some time. */
export interface WellSource {
  node: string;
  channel: string;
  feed: Feed;
}

export interface LiveState {
  options: LiveOptions;
  nodes: Map<string, NodeEntry>;
  pipelines: Map<string, WellPipeline>;
  /** The newest card of each well. */
  cards: Map<string, Card>;
  /** Every card with the time for which it counts: a late pack is read as the card of its own time says. */
  periods: Period[];
  readTable: MutableReadTable;
  sites: Map<string, SiteState>;
  /** Alarms of each well that stand or ended not long ago, for knowing them again. */
  knownAlarms: Map<string, AlarmRow[]>;
  /** What the running turn will commit. */
  changes: Change[];
  /** Wells that something came for, and nodes whose books are to be saved, in the running turn. */
  dirtyWells: Set<WellPipeline>;
  dirtyNodes: Set<string>;
  /** The wells that each node feeds, and what feeds each well; worked out when first asked for. */
  pipelinesByNode: Map<string, WellPipeline[]>;
  sourcesByWell: Map<string, WellSource[]> | undefined;
  counts: LiveCounts;
  /** Of the running turn, for whoever looks; emptied by the loop. */
  liveEvents: ({ placed: PlacedPack } | { alarm: AlarmRow })[];
  /** When a message of a node beyond the ceiling was last kept for a look. */
  ceilingShownMs?: number;
  /** Somebody looks: only then `liveEvents` is filled. */
  hasViewers: boolean;
}

export function newLiveState(options: LiveOptions): LiveState {
  return {
    options,
    nodes: new Map(),
    pipelines: new Map(),
    cards: new Map(),
    periods: [],
    readTable: new Map(),
    sites: new Map(),
    sourcesByWell: undefined,
    knownAlarms: new Map(),
    changes: [],
    dirtyWells: new Set(),
    liveEvents: [],
    hasViewers: false,
    dirtyNodes: new Set(),
    pipelinesByNode: new Map(),
    counts: {
      messages: 0,
      packs: 0,
      duplicates: 0,
      readings: 0,
      refused: 0,
      tooLate: 0,
      reruns: 0,
      commits: 0,
      commitMs: 0,
    },
  };
}

export function rebuildReadTable(live: LiveState): void {
  live.readTable = readTableFromPeriods(live.periods);
  live.pipelinesByNode.clear();
  live.sourcesByWell = undefined;
}

/** A further card, of a well that no other card is of: only its own node is fed by it. */
export function addPeriod(live: LiveState, period: Period): void {
  live.periods.push(period);
  addToReadTable(live.readTable, period);
  live.pipelinesByNode.delete(period.card.well);
  live.sourcesByWell = undefined;
}

/** All that ever feeds this well. */
export function sourcesOfWell(live: LiveState, well: string): readonly WellSource[] {
  live.sourcesByWell ??= groupSourcesByWell(live.readTable);
  return live.sourcesByWell.get(well) ?? [];
}

function groupSourcesByWell(table: ReadTable): Map<string, WellSource[]> {
  const byWell = new Map<string, WellSource[]>();
  for (const [node, channels] of table) {
    for (const [channel, feeds] of channels) {
      for (const feed of feeds) {
        const mine = byWell.get(feed.well) ?? [];
        byWell.set(feed.well, mine);
        mine.push({ node, channel, feed });
      }
    }
  }
  return byWell;
}

/** The wells an act is for: its own, or all of them. */
export function pipelinesOfAct(live: LiveState, act: Act): WellPipeline[] {
  const well = act.kind === 'card-changed' ? act.card.well : 'well' in act ? act.well : undefined;
  if (well === undefined) return [...live.pipelines.values()];
  const pipeline = live.pipelines.get(well);
  return pipeline ? [pipeline] : [];
}
