/**
 * Which node's channel feeds which well over the whole recording: each card counts from the act
 * that brought it to the next one.
 */
import type { Card, SourceRule } from '../domain/card.ts';
import { BASE_CHANNELS, channelName, codeOf } from '../domain/channels.ts';
import { sourcesOf, type Feed, type ReadTable, type Source } from '../domain/sources.ts';

/** A card and when it is in force, by the time of readings. */
export interface Period {
  card: Card;
  sinceMs: number;
  untilMs: number;
  /** Made for a node that no card named: the node is given up to the first card that names it. */
  byDefault?: true;
}

/** Every card of every well, each well's in the order in which they came. */
export type CardPeriods = Map<string, Period[]>;

/**
 * Which node's channel feeds which wells, changed in place: one card costs no look at the others.
 */
export type MutableReadTable = Map<string, Map<string, Feed[]>>;

export interface Reads {
  periods: CardPeriods;
  readTable: MutableReadTable;
}

export function addPeriod({ periods, readTable }: Reads, period: Period): void {
  const { card, sinceMs, untilMs } = period;
  const own = periods.get(card.well);
  if (own) own.push(period);
  else periods.set(card.well, [period]);
  for (const source of sourcesOf(card)) {
    const feed = feedOf(card.well, source, sinceMs, untilMs);
    if (feed.sinceMs >= feed.untilMs) continue;
    const channels = readTable.get(source.node) ?? new Map<string, Feed[]>();
    readTable.set(source.node, channels);
    const feeds = channels.get(source.nodeChannel) ?? [];
    channels.set(source.nodeChannel, feeds);
    feeds.push(feed);
  }
}

/** What a source of a card feeds while the card is in force. */
function feedOf(well: string, source: Source, sinceMs: number, untilMs: number): Feed {
  return {
    well,
    code: source.code,
    sinceMs: Math.max(sinceMs, source.sinceMs),
    untilMs: Math.min(untilMs, source.untilMs),
  };
}

/**
 * The well's card from `atMs` on: the one before ends there, and so do the wells made by default of
 * nodes that it names. Returns the periods that end.
 */
export function startCardPeriod(reads: Reads, card: Card, atMs: number): Period[] {
  const named = new Set(sourcesOf(card).map((source) => source.node));
  const replaced = [...named].flatMap((node) =>
    (reads.periods.get(node) ?? []).filter((period) => period.byDefault === true),
  );
  const own = reads.periods.get(card.well) ?? [];
  const ending = [...new Set([...own, ...replaced])].filter(({ untilMs }) => untilMs > atMs);
  for (const period of ending) endPeriod(reads.readTable, period, atMs);
  addPeriod(reads, { card, sinceMs: atMs, untilMs: Number.POSITIVE_INFINITY });
  return ending;
}

/** Ends a period at `atMs`, which may be before its beginning: then it fed nothing. */
function endPeriod(table: MutableReadTable, period: Period, atMs: number): void {
  for (const source of sourcesOf(period.card)) {
    const before = feedOf(period.card.well, source, period.sinceMs, period.untilMs);
    const channels = table.get(source.node);
    const feeds = channels?.get(source.nodeChannel);
    const at = feeds?.findIndex((feed) => isSameFeed(feed, before)) ?? -1;
    if (!channels || !feeds || at < 0) continue;
    if (before.sinceMs < Math.min(before.untilMs, atMs))
      feeds[at] = { ...before, untilMs: Math.min(before.untilMs, atMs) };
    else feeds.splice(at, 1);
    if (feeds.length === 0) channels.delete(source.nodeChannel);
    if (channels.size === 0) table.delete(source.node);
  }
  period.untilMs = atMs;
}

function isSameFeed(a: Feed, b: Feed): boolean {
  return a.well === b.well && a.code === b.code && a.sinceMs === b.sinceMs && a.untilMs === b.untilMs;
}

/** Takes a well out of the table, with all that its cards ever named. Returns its periods. */
export function removePeriods({ periods, readTable }: Reads, well: string): Period[] {
  const own = periods.get(well) ?? [];
  for (const period of own) endPeriod(readTable, period, Number.NEGATIVE_INFINITY);
  periods.delete(well);
  return own;
}

/** The card in force at this time, of the well of this name. */
export function cardAt(periods: CardPeriods, well: string, atMs: number): Card | undefined {
  return periods.get(well)?.find((p) => p.sinceMs <= atMs && atMs < p.untilMs)?.card;
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
