/**
 * Which node's channel feeds which well over the whole recording: each card counts from the act
 * that brought it to the next one.
 */
import type { Card, SourceRule } from '../domain/card.ts';
import { BASE_CHANNELS, channelName, codeOf } from '../domain/channels.ts';
import { sourcesOf, type Feed, type ReadTable } from '../domain/sources.ts';

/** A card and when it is in force, by the time of readings. */
export interface Period {
  card: Card;
  sinceMs: number;
  untilMs: number;
  /** Made for a node that no card named: the node is given up to the first card that names it. */
  byDefault?: true;
}

export function readTableFromPeriods(periods: readonly Period[]): MutableReadTable {
  const table: MutableReadTable = new Map();
  for (const period of periods) addToReadTable(table, period);
  return table;
}

/** A table to which a further card can be added, without making it again for a thousand others. */
export type MutableReadTable = Map<string, Map<string, Feed[]>>;

export function addToReadTable(table: MutableReadTable, { card, sinceMs, untilMs }: Period): void {
  for (const source of sourcesOf(card)) {
    const fromMs = Math.max(sinceMs, source.sinceMs);
    const toMs = Math.min(untilMs, source.untilMs);
    if (fromMs >= toMs) continue;
    const channels = table.get(source.node) ?? new Map<string, Feed[]>();
    table.set(source.node, channels);
    const feeds = channels.get(source.nodeChannel) ?? [];
    channels.set(source.nodeChannel, feeds);
    feeds.push({ well: card.well, code: source.code, sinceMs: fromMs, untilMs: toMs });
  }
}

/**
 * The well's card from `atMs` on: the one before ends there, and so do the wells made by default of
 * nodes that it names.
 */
export function startCardPeriod(periods: Period[], card: Card, atMs: number): void {
  const named = new Set(sourcesOf(card).map((source) => source.node));
  for (const period of periods) {
    const replaced = period.byDefault === true && named.has(period.card.well);
    if ((period.card.well === card.well || replaced) && period.untilMs > atMs) period.untilMs = atMs;
  }
  periods.push({ card, sinceMs: atMs, untilMs: Number.POSITIVE_INFINITY });
}

/** The card in force at this time, of the well of this name. */
export function cardAt(periods: readonly Period[], well: string, atMs: number): Card | undefined {
  return periods.find((p) => p.card.well === well && p.sinceMs <= atMs && atMs < p.untilMs)?.card;
}

/** The wells that read anything from this node, ever or at one moment. */
export function wellsOf(table: ReadTable, node: string, atMs?: number): string[] {
  const wells = new Set<string>();
  for (const feeds of table.get(node)?.values() ?? []) {
    for (const feed of feeds) {
      if (atMs === undefined || (feed.sinceMs <= atMs && atMs < feed.untilMs)) wells.add(feed.well);
    }
  }
  return [...wells];
}

/**
 * The card with `node` in place of the node of the well's own name, wherever nothing else is named.
 */
export function withDefaultNode(card: Card, node: string): Card {
  const added: SourceRule[] = [];
  const codes = card.pumps.flatMap((_, pump) => BASE_CHANNELS.map((base) => codeOf(base, pump)));
  for (const channel of codes.map(channelName)) {
    if (card.reads.some((rule) => rule.channel === channel && rule.sinceMs <= 0)) continue;
    added.push({ channel, node, nodeChannel: channel, sinceMs: 0 });
  }
  const reads = [...card.reads, ...added].sort(
    (a, b) => (a.channel < b.channel ? -1 : Number(a.channel > b.channel)) || a.sinceMs - b.sinceMs,
  );
  return { ...card, reads };
}
