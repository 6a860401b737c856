/** What a replay holds at once: the wells with a week of readings that may still change, their nodes, and lines that wait to be printed. */
import type { Card } from '../../card/card.ts';
import type { ReadTable } from '../../card/reads.ts';
import { newWell } from '../../engine/engine.ts';
import type { NodeState } from '../../readings/node.ts';
import { newNode } from '../../readings/node.ts';
import type { NewsItem } from '../../readings/news.ts';
import type { SiteState } from '../../readings/site-silence.ts';
import type { Hello } from '../../wire/messages.ts';
import { newLine, type Line } from '../live/line.ts';
import { newOrder, type Order } from './order.ts';
import { tableOf, wellsOf, type Period } from './table.ts';

export interface NodeBook {
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
  lines: Map<string, Line>;
  periods: Period[];
  table: ReadTable;
  /** Lines that a node feeds, made when asked for. */
  feeding: Map<string, Line[]>;
  /** Well -> the node that its cards read by default. */
  readsBy: ReadonlyMap<string, string>;
  nodes: Map<string, NodeBook>;
  sites: Map<string, SiteState>;
  /** News that has not yet found its wells. */
  news: NewsItem[];
  /** No node or site has anything to say by itself before this. */
  newsDueMs: number;
  order: Order;
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
    lines: new Map(),
    periods: [],
    table: new Map(),
    feeding: new Map(),
    readsBy,
    nodes: new Map(),
    sites: new Map(),
    news: [],
    newsDueMs: Number.POSITIVE_INFINITY,
    order: newOrder(),
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
  retable(replay);
  return replay;
}

/** A well that begins with this card. The table has to be made again. */
export function addWell(replay: Replay, card: Card, how: { byDefault?: true }): Line {
  const line = newLine(card.well, newWell(card));
  replay.lines.set(card.well, line);
  const always = { sinceMs: Number.NEGATIVE_INFINITY, untilMs: Number.POSITIVE_INFINITY };
  replay.periods.push({ card, ...always, ...how });
  return line;
}

export function retable(replay: Replay): void {
  replay.table = tableOf(replay.periods);
  replay.feeding.clear();
}

/** The wells that read anything from this node at any time. */
export function linesOf(replay: Replay, node: string): Line[] {
  const known = replay.feeding.get(node);
  if (known) return known;
  const lines = wellsOf(replay.table, node).map((well) => replay.lines.get(well)!);
  replay.feeding.set(node, lines);
  return lines;
}

export function bookOf(replay: Replay, node: string): NodeBook {
  const known = replay.nodes.get(node);
  if (known) return known;
  const book: NodeBook = { state: newNode(node) };
  replay.nodes.set(node, book);
  return book;
}

export function countIn(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}
