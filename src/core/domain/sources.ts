/**
 * Which channel of which node feeds which channel of a well, and when. The rule (contract, section
 * 5): a channel named under `reads` comes from where its newest rule says; before its first rule,
 * and for every channel that `reads` leaves out, the node of the well's own name feeds it, channel
 * by channel. So a card that reads only pressure from the pump house still takes its current from
 * its own node, and a node that was replaced keeps its past. Of a node's channels with a pump's
 * prefix only those of the card's pumps count.
 */
import type { Card } from './card.ts';
import { BASE_CHANNELS, channelName, codeOf } from './channels.ts';

/**
 * One source over one stretch of time: `node`'s channel `from` is the well's channel `code` from
 * `sinceMs` on, until `untilMs` (left out).
 */
export interface Source {
  node: string;
  nodeChannel: string;
  code: number;
  sinceMs: number;
  /** Infinity where it still holds. */
  untilMs: number;
  /**
   * Nobody named this node: it is read only because it bears the well's name, and it may not exist.
   */
  implicit: boolean;
}

/** A node as a well reads from it. */
export interface SourceNode {
  node: string;
  implicit: boolean;
}

/** Every source of a card, in order of the well's channel code and then of time. */
export function sourcesOf(card: Card): readonly Source[] {
  const cached = sourcesCache.get(card);
  if (cached) return cached;
  const sources: Source[] = [];
  card.pumps.forEach((_pump, pump) => {
    for (const base of BASE_CHANNELS) sources.push(...sourcesOfChannel(card, codeOf(base, pump)));
  });
  sourcesCache.set(card, sources);
  return sources;
}

/** Asked for at every pack, and a card does not change: worked out once. */
const sourcesCache = new WeakMap<Card, readonly Source[]>();

/**
 * Where a channel of the well, by its code, comes from at `tMs`; undefined where no pump of the
 * card has such a channel.
 */
export function sourceAt(card: Card, code: number, tMs: number): Source | undefined {
  let byCode = sourcesByCode.get(card);
  if (!byCode) {
    byCode = [];
    for (const source of sourcesOf(card)) (byCode[source.code] ??= []).push(source);
    sourcesByCode.set(card, byCode);
  }
  return byCode[code]?.find(({ sinceMs, untilMs }) => tMs >= sinceMs && tMs < untilMs);
}

const sourcesByCode = new WeakMap<Card, Source[][]>();

function sourcesOfChannel(card: Card, code: number): Source[] {
  const channel = channelName(code);
  const rules = card.reads.filter((rule) => rule.channel === channel);
  const firstMs = rules[0]?.sinceMs ?? Number.POSITIVE_INFINITY;
  const own: Source = {
    node: card.well,
    nodeChannel: channel,
    code,
    sinceMs: 0,
    untilMs: firstMs,
    implicit: true,
  };
  const named = rules.map((rule, at): Source => ({
    node: rule.node,
    nodeChannel: rule.nodeChannel,
    code,
    sinceMs: rule.sinceMs,
    untilMs: rules[at + 1]?.sinceMs ?? Number.POSITIVE_INFINITY,
    implicit: false,
  }));
  return firstMs > 0 ? [own, ...named] : named;
}

/**
 * Nodes that a well reads from at a time, each once, named ones first: those whose silence it
 * should notice. A node read only because it bears the well's name is `implicit`; where others are
 * named it may not exist.
 */
export function nodesOf(card: Card, atMs: number): readonly SourceNode[] {
  const cached = nodesCache.get(card);
  if (cached && cached.sinceMs <= atMs && atMs < cached.untilMs) return cached.nodes;
  const sources = sourcesOf(card);
  const bounds = sources.flatMap((source) => [source.sinceMs, source.untilMs]);
  const sinceMs = Math.max(...bounds.filter((bound) => bound <= atMs));
  const untilMs = Math.min(...bounds.filter((bound) => bound > atMs));
  const nodes = nodesAt(sources, card.well, atMs);
  nodesCache.set(card, { sinceMs, untilMs, nodes });
  return nodes;
}

/** The same until the next source begins or ends. */
const nodesCache = new WeakMap<Card, { sinceMs: number; untilMs: number; nodes: readonly SourceNode[] }>();

function nodesAt(sources: readonly Source[], well: string, atMs: number): SourceNode[] {
  const now = sources.filter((source) => source.sinceMs <= atMs && atMs < source.untilMs);
  const named = new Set(now.filter((source) => !source.implicit).map((source) => source.node));
  const own = now.some((source) => source.implicit) && !named.has(well);
  return [
    ...[...named].map((node) => ({ node, implicit: false })),
    ...(own ? [{ node: well, implicit: true }] : []),
  ];
}

/** What one channel of one node feeds. */
export interface Feed {
  well: string;
  code: number;
  sinceMs: number;
  untilMs: number;
}

/** All cards turned round: by node, by that node's channel, the wells that it feeds. */
export type ReadTable = ReadonlyMap<string, ReadonlyMap<string, readonly Feed[]>>;

const NO_FEEDS: readonly Feed[] = [];

/**
 * Made once for a set of cards and again when one of them changes; wells in the order of the cards.
 */
export function readTableFromCards(cards: readonly Card[]): ReadTable {
  const table = new Map<string, Map<string, Feed[]>>();
  for (const card of cards) {
    for (const { node, nodeChannel, code, sinceMs, untilMs } of sourcesOf(card)) {
      const channels = table.get(node) ?? new Map<string, Feed[]>();
      table.set(node, channels);
      const feeds = channels.get(nodeChannel) ?? [];
      channels.set(nodeChannel, feeds);
      feeds.push({ well: card.well, code, sinceMs, untilMs });
    }
  }
  return table;
}

/**
 * What a node's channel feeds over all time; for a column of readings, cut by each feed's `sinceMs`
 * and `untilMs`.
 */
export function feedsOf(table: ReadTable, node: string, channel: string): readonly Feed[] {
  return table.get(node)?.get(channel) ?? NO_FEEDS;
}

/**
 * True where some card names or bears the name of this node: else it is a well of its own name with
 * one pump.
 */
export function isSourceNode(table: ReadTable, node: string): boolean {
  return table.has(node);
}
