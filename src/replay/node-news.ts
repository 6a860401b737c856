/**
 * What arrival says of nodes while a recording runs: silence, lost power, two boxes under one name. Each piece of news goes, with its own
 * time, to the wells that read from its node, by way of its site where it has one.
 */
import { conflictClearsMs } from '../core/readings/conflict.ts';
import type { NewsItem } from '../core/readings/news.ts';
import { drainNews, type NodeState } from '../core/readings/node.ts';
import { silenceDueMs } from '../core/readings/silence.ts';
import {
  newSite,
  advanceSite,
  handleSiteNews,
  nextSiteDueMs,
  type SiteNode,
  type SiteOutput,
} from '../core/readings/site-silence.ts';
import { addInput } from '../core/fleet/well-pipeline.ts';
import { siteAlarmEvent } from '../core/fleet/site-event.ts';
import { enqueue } from './event-queue.ts';
import type { Replay } from './state.ts';
import { cardAt, wellsOf } from '../core/fleet/read-table.ts';

/** Arrival time goes on to `toMs`: everything that became news before it finds its wells. */
export function dispatchNews(replay: Replay, toMs: number): void {
  if (replay.news.length === 0 && toMs <= replay.newsDueMs) return;
  for (const { state } of replay.nodes.values()) replay.news.push(...drainNews(state, toMs));
  const items = replay.news.sort(
    (a, b) => a.atMs - b.atMs || (a.node.node < b.node.node ? -1 : Number(a.node.node > b.node.node)),
  );
  replay.news = [];
  for (const item of items) routeNewsItem(replay, item);
  let dueMs = Number.POSITIVE_INFINITY;
  for (const site of replay.sites.values()) {
    const nodes = nodesOfSite(replay, site.site, toMs);
    applySiteOutput(replay, (output) => advanceSite(site, nodes, toMs, output));
    dueMs = Math.min(dueMs, nextSiteDueMs(site, nodes));
  }
  for (const { state } of replay.nodes.values()) dueMs = Math.min(dueMs, nextDueMs(state));
  replay.newsDueMs = dueMs;
}

/** After a message of a node: what it says at once, and when it may be silent too long. */
export function collectNews(replay: Replay, state: NodeState): void {
  if (state.news.length > 0) {
    replay.news.push(...state.news);
    state.news = [];
  }
  const dueMs = nextDueMs(state);
  if (dueMs < replay.newsDueMs) replay.newsDueMs = dueMs;
}

function nextDueMs(state: NodeState): number {
  return Math.min(silenceDueMs(state.liveness), conflictClearsMs(state.conflict));
}

function routeNewsItem(replay: Replay, item: NewsItem): void {
  const name = siteOf(replay, item.node.node, item.atMs);
  // What a sensor can show is no business of the site.
  if (name === undefined || item.node.news === 'full-scale') {
    deliverNews(replay, item);
    return;
  }
  let site = replay.sites.get(name);
  if (!site) replay.sites.set(name, (site = newSite(name)));
  const known = site;
  const nodes = nodesOfSite(replay, name, item.atMs);
  // Sites speak in order of time too: another one may have waited for something before this.
  applySiteOutput(replay, (output) => handleSiteNews(known, nodes, item, output));
}

function applySiteOutput(replay: Replay, update: (output: SiteOutput) => void): void {
  const output: SiteOutput = { news: [], site: [] };
  update(output);
  for (const item of output.news) deliverNews(replay, item);
  for (const change of output.site) enqueue(replay.eventQueue, siteAlarmEvent(change), change.atMs);
}

function deliverNews(replay: Replay, { atMs, node: news }: NewsItem): void {
  const fedFrom = replay.nodes.get(news.node)?.fedFrom;
  const node = news.news === 'silent' && fedFrom !== undefined ? { ...news, fedFrom } : news;
  // A well that will read from it only later hears it now: it knows by itself which of its channels that is about.
  const whenMs = node.news === 'full-scale' ? undefined : atMs;
  for (const well of wellsOf(replay.readTable, node.node, whenMs)) {
    addInput(replay.pipelines.get(well)!, { atMs, node });
  }
}

function siteOf(replay: Replay, node: string, atMs: number): string | undefined {
  for (const well of wellsOf(replay.readTable, node, atMs)) {
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
    const stock = wellsOf(replay.readTable, node, atMs).some((well) =>
      cardAt(replay.periods, well, atMs)?.uses.includes('stock'),
    );
    nodes.push({ node, priority: stock || fedFrom === 'pump-circuit' ? 'now' : 'soon' });
  }
  return nodes;
}
