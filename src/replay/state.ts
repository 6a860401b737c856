/** What a replay holds at once: the wells with a week of readings that may still change, their nodes, and lines that wait to be printed. */
import type { Card } from '../core/domain/card.ts';
import type { ReadTable } from '../core/domain/sources.ts';
import { newWell } from '../core/well/engine.ts';
import type { NodeState } from '../core/readings/node.ts';
import { newNode } from '../core/readings/node.ts';
import type { NewsItem } from '../core/readings/news.ts';
import type { SiteState } from '../core/readings/site-silence.ts';
import type { Hello } from '../core/decode/messages.ts';
import { newPipeline, type WellPipeline } from '../core/fleet/well-pipeline.ts';
import { newEventQueue, type EventQueue } from './event-queue.ts';
import { readTableFromPeriods, wellsOf, type Period } from '../core/fleet/read-table.ts';

export interface ReplayNode {
  state: NodeState;
  fedFrom?: Hello['fedFrom'];
}

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

export interface Replay {
  /** By well. */
  pipelines: Map<string, WellPipeline>;
  periods: Period[];
  readTable: ReadTable;
  /** Lines that a node feeds, made when asked for. */
  pipelinesByNode: Map<string, WellPipeline[]>;
  /** Well -> the node that its cards read by default. */
  defaultNodes: ReadonlyMap<string, string>;
  nodes: Map<string, ReplayNode>;
  sites: Map<string, SiteState>;
  /** News that has not yet found its wells. */
  news: NewsItem[];
  /** No node or site has anything to say by itself before this. */
  newsDueMs: number;
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
    pipelines: new Map(),
    periods: [],
    readTable: new Map(),
    pipelinesByNode: new Map(),
    defaultNodes: readsBy,
    nodes: new Map(),
    sites: new Map(),
    news: [],
    newsDueMs: Number.POSITIVE_INFINITY,
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
  for (const card of cards) addWell(replay, card, {});
  rebuildReadTable(replay);
  return replay;
}

/** A well that begins with this card. The table has to be made again. */
export function addWell(replay: Replay, card: Card, how: { byDefault?: true }): WellPipeline {
  const pipeline = newPipeline(card.well, newWell(card));
  replay.pipelines.set(card.well, pipeline);
  const always = { sinceMs: Number.NEGATIVE_INFINITY, untilMs: Number.POSITIVE_INFINITY };
  replay.periods.push({ card, ...always, ...how });
  return pipeline;
}

export function rebuildReadTable(replay: Replay): void {
  replay.readTable = readTableFromPeriods(replay.periods);
  replay.pipelinesByNode.clear();
}

/** The wells that read anything from this node at any time. */
export function pipelinesForNode(replay: Replay, node: string): WellPipeline[] {
  const known = replay.pipelinesByNode.get(node);
  if (known) return known;
  const pipelines = wellsOf(replay.readTable, node).map((well) => replay.pipelines.get(well)!);
  replay.pipelinesByNode.set(node, pipelines);
  return pipelines;
}

export function getOrCreateNode(replay: Replay, node: string): ReplayNode {
  const known = replay.nodes.get(node);
  if (known) return known;
  const book: ReplayNode = { state: newNode(node) };
  replay.nodes.set(node, book);
  return book;
}

export function increment(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}
