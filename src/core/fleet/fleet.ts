/**
 * All nodes, wells and sites of one server or one recording, and which node feeds which well: plain
 * data. The live server and `replay` each hold one, and what is said of nodes and wells together is
 * said here once.
 */
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import type { Hello } from '../decode/messages.ts';
import type { Card } from '../domain/card.ts';
import type { Feed } from '../domain/sources.ts';
import type { NodeState } from '../readings/node.ts';
import type { SiteState } from '../readings/site-silence.ts';
import type { MutableReadTable, Period } from './read-table.ts';
import type { WellPipeline } from './well-pipeline.ts';

export interface FleetNode {
  state: NodeState;
  /** Its newest hello. */
  hello?: Hello;
}

/** One channel of a node that feeds a well for some time. */
export interface WellSource {
  node: string;
  channel: string;
  feed: Feed;
}

export interface Fleet {
  /**
   * A recording, which is run once and in order: what is older than the settling time when it comes
   * is left out, and no well is run again. Else late readings have their well run again.
   */
  runsOnce: boolean;
  nodes: Map<string, FleetNode>;
  pipelines: Map<string, WellPipeline>;
  /** The newest card of each well. */
  cards: Map<string, Card>;
  /**
   * Every card with the time for which it counts: a late pack is read as the card of its own time
   * says.
   */
  periods: Period[];
  readTable: MutableReadTable;
  /** The wells that each node feeds, and what feeds each well; worked out when first asked for. */
  pipelinesByNode: Map<string, WellPipeline[]>;
  sourcesByWell: Map<string, WellSource[]> | undefined;
  sites: Map<string, SiteState>;
  /** Alarms of each well and site that stand or ended not long ago, for knowing them again. */
  knownAlarms: Map<string, AlarmRow[]>;
  /** No node or site has news up to and including this time; -Infinity while news waits. */
  newsDueMs: number;
}

export function newFleet({ runsOnce = false }: { runsOnce?: boolean } = {}): Fleet {
  return {
    runsOnce,
    nodes: new Map(),
    pipelines: new Map(),
    cards: new Map(),
    periods: [],
    readTable: new Map(),
    pipelinesByNode: new Map(),
    sourcesByWell: undefined,
    sites: new Map(),
    knownAlarms: new Map(),
    newsDueMs: Number.NEGATIVE_INFINITY,
  };
}
