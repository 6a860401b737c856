/**
 * All nodes, wells and sites of one server or one recording, and which node feeds which well: plain
 * data. The live server and `replay` each hold one, and handle (./handle.ts) is the one way in
 * which it changes.
 */
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import type { Hello } from '../decode/messages.ts';
import type { Card } from '../domain/card.ts';
import type { Feed } from '../domain/sources.ts';
import type { NodeState } from '../readings/node.ts';
import type { SiteState } from '../readings/site-silence.ts';
import type { Ceiling } from './ceiling.ts';
import type { CardPeriods, MutableReadTable } from './read-table.ts';
import type { FleetReason } from './reason-text.ts';
import type { WellPipeline } from './well-pipeline.ts';

/**
 * Names that a node spoke for without a right to: how many came in all its hellos, and why the last
 * ones count for nothing.
 */
export interface IgnoredNames {
  names: number;
  why: FleetReason;
  lastMs: number;
}

export interface FleetNode {
  state: NodeState;
  /** Its newest hello. */
  hello?: Hello;
  approved: boolean;
  /** It should hear what is kept of it, and when it last did, by our clock. */
  ackDue: boolean;
  ackSentAtMs: number;
  savedAtMs: number;
  /** State moved since it was saved. */
  unsaved: boolean;
  ignored?: IgnoredNames;
  /** When a refused pack, and a hello with names that do not count, was last kept for a look. */
  rejectionRecordedMs?: number;
  ignoredShownMs?: number;
}

/** One channel of a node that feeds a well for some time. */
export interface WellSource {
  node: string;
  channel: string;
  feed: Feed;
}

/** What differs between a server and a recording, and between servers. */
export interface FleetRules {
  /**
   * A recording is run once and in order: what is older than the settling time when it comes is
   * left out. Else late readings have their well run again.
   */
  runsOnce: boolean;
  /** Every node that speaks is approved. */
  approveAll: boolean;
  /** Nodes are told what is kept of them. */
  acknowledges: boolean;
  ceiling: Ceiling;
}

export interface Fleet {
  rules: FleetRules;
  nodes: Map<string, FleetNode>;
  pipelines: Map<string, WellPipeline>;
  /** The newest card of each well. */
  cards: Map<string, Card>;
  /**
   * Every card with the time for which it counts: a late pack is read as the card of its own time
   * says.
   */
  periods: CardPeriods;
  readTable: MutableReadTable;
  /**
   * The wells that each node feeds, and what feeds each well; worked out when first asked for.
   */
  pipelinesByNode: Map<string, WellPipeline[]>;
  sourcesByWell: Map<string, WellSource[]>;
  sites: Map<string, SiteState>;
  /** Alarms of each well and site that stand or ended not long ago, for knowing them again. */
  knownAlarms: Map<string, AlarmRow[]>;
  /** Wells that something came for since they were last passed on. */
  dirtyWells: Set<WellPipeline>;
  /** No node or site has news up to and including this time; -Infinity while news waits. */
  newsDueMs: number;
  /**
   * Nothing is due before this though no message comes; worked out at the end of each turn.
   * -Infinity after any other change.
   */
  wakeAtMs: number;
  /** No well or node is saved by time alone before this, so that many saves share a commit. */
  savesFromMs: number;
  /** When a message of a node beyond the ceiling was last kept for a look. */
  ceilingShownMs?: number;
}

const RULES: FleetRules = {
  runsOnce: false,
  approveAll: true,
  acknowledges: false,
  ceiling: { nodes: Number.POSITIVE_INFINITY, wells: Number.POSITIVE_INFINITY },
};

export function newFleet(rules: Partial<FleetRules> = {}): Fleet {
  return {
    rules: { ...RULES, ...rules },
    nodes: new Map(),
    pipelines: new Map(),
    cards: new Map(),
    periods: new Map(),
    readTable: new Map(),
    pipelinesByNode: new Map(),
    sourcesByWell: new Map(),
    sites: new Map(),
    knownAlarms: new Map(),
    dirtyWells: new Set(),
    newsDueMs: Number.NEGATIVE_INFINITY,
    wakeAtMs: Number.NEGATIVE_INFINITY,
    savesFromMs: Number.NEGATIVE_INFINITY,
  };
}
