/**
 * What arrival says of nodes while a recording runs: silence, lost power, two boxes under one name. Each piece of news goes, with its own
 * time, to the wells that read from its node, by way of its site where it has one.
 */
import { conflictDueMs } from '../../readings/conflict.ts';
import type { NewsItem } from '../../readings/news.ts';
import { takeNews, type NodeState } from '../../readings/node.ts';
import { silenceDueMs } from '../../readings/silence.ts';
import {
  newSite,
  passSite,
  siteHears,
  siteNextMs,
  type SiteNode,
  type SiteSays,
} from '../../readings/site-silence.ts';
import { addInput } from '../live/line.ts';
import { siteLine } from '../site-line.ts';
import { addLine } from './order.ts';
import type { Replay } from './state.ts';
import { cardAt, wellsOf } from './table.ts';

/** Arrival time goes on to `toMs`: everything that became news before it finds its wells. */
export function passNews(replay: Replay, toMs: number): void {
  if (replay.news.length === 0 && toMs <= replay.newsDueMs) return;
  for (const { state } of replay.nodes.values()) replay.news.push(...takeNews(state, toMs));
  const items = replay.news.sort(
    (a, b) => a.atMs - b.atMs || (a.node.node < b.node.node ? -1 : Number(a.node.node > b.node.node)),
  );
  replay.news = [];
  for (const item of items) pass(replay, item);
  let dueMs = Number.POSITIVE_INFINITY;
  for (const site of replay.sites.values()) {
    const nodes = nodesOfSite(replay, site.site, toMs);
    say(replay, (says) => passSite(site, nodes, toMs, says));
    dueMs = Math.min(dueMs, siteNextMs(site, nodes));
  }
  for (const { state } of replay.nodes.values()) dueMs = Math.min(dueMs, dueOf(state));
  replay.newsDueMs = dueMs;
}

/** After a message of a node: what it says at once, and when it may be silent too long. */
export function noteNews(replay: Replay, state: NodeState): void {
  if (state.news.length > 0) {
    replay.news.push(...state.news);
    state.news = [];
  }
  const dueMs = dueOf(state);
  if (dueMs < replay.newsDueMs) replay.newsDueMs = dueMs;
}

function dueOf(state: NodeState): number {
  return Math.min(silenceDueMs(state.hearing), conflictDueMs(state.conflict));
}

function pass(replay: Replay, item: NewsItem): void {
  const name = siteOf(replay, item.node.node, item.atMs);
  // What a sensor can show is no business of the site.
  if (name === undefined || item.node.news === 'full-scale') {
    deliver(replay, item);
    return;
  }
  let site = replay.sites.get(name);
  if (!site) replay.sites.set(name, (site = newSite(name)));
  const known = site;
  const nodes = nodesOfSite(replay, name, item.atMs);
  // Sites speak in order of time too: another one may have waited for something before this.
  say(replay, (says) => siteHears(known, nodes, item, says));
}

function say(replay: Replay, speak: (says: SiteSays) => void): void {
  const says: SiteSays = { news: [], site: [] };
  speak(says);
  for (const item of says.news) deliver(replay, item);
  for (const change of says.site) addLine(replay.order, siteLine(change), change.atMs);
}

function deliver(replay: Replay, { atMs, node: news }: NewsItem): void {
  const fedFrom = replay.nodes.get(news.node)?.fedFrom;
  const node = news.news === 'silent' && fedFrom !== undefined ? { ...news, fedFrom } : news;
  // A well that will read from it only later hears it now: it knows by itself which of its channels that is about.
  const whenMs = node.news === 'full-scale' ? undefined : atMs;
  for (const well of wellsOf(replay.table, node.node, whenMs)) {
    addInput(replay.lines.get(well)!, { atMs, node });
  }
}

function siteOf(replay: Replay, node: string, atMs: number): string | undefined {
  for (const well of wellsOf(replay.table, node, atMs)) {
    const site = cardAt(replay.periods, well, atMs)?.site;
    if (site !== undefined) return site;
  }
  return undefined;
}

/** The nodes of a site that were ever heard. */
function nodesOfSite(replay: Replay, site: string, atMs: number): SiteNode[] {
  const nodes: SiteNode[] = [];
  for (const [node, { fedFrom }] of replay.nodes) {
    if (siteOf(replay, node, atMs) !== site) continue;
    const stock = wellsOf(replay.table, node, atMs).some((well) =>
      cardAt(replay.periods, well, atMs)?.uses.includes('stock'),
    );
    nodes.push({ node, priority: stock || fedFrom === 'pump-circuit' ? 'now' : 'soon' });
  }
  return nodes;
}
