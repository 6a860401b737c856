/**
 * What arrival says of nodes: silence, lost power, two boxes under one name. Each piece of news
 * becomes an input of the wells that read from its node, with a time of its own; silence goes by
 * way of the node's site, which speaks for all of its nodes where half of them fall silent
 * together. `newsDueMs` of the fleet says when time alone makes news: before then nothing has to be
 * asked.
 */
import { conflictClearsMs } from '../readings/conflict.ts';
import type { NewsItem } from '../readings/news.ts';
import { drainNews, excuseServerOutage, type NodeState } from '../readings/node.ts';
import { silenceDueMs } from '../readings/silence.ts';
import { newSite, advanceSite, handleSiteNews, nextSiteDueMs } from '../readings/site-silence.ts';
import type { SiteNode, SiteOutput, SiteState } from '../readings/site-silence.ts';
import { publishEvent } from './alarm-rows.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { cardAt, wellsOf } from './read-table.ts';
import { siteAlarmEvent } from './site-event.ts';
import { addInput } from './well-pipeline.ts';

/** After anything that changed a node: when its next news is due. */
export function trackNews(fleet: Fleet, state: NodeState): void {
  const dueMs = state.news.length > 0 ? Number.NEGATIVE_INFINITY : nodeNewsDueMs(state);
  if (dueMs < fleet.newsDueMs) fleet.newsDueMs = dueMs;
}

/** The server was away: what falls silent meanwhile is nobody's fault. */
export function excuseOutage(fleet: Fleet, fromMs: number, untilMs: number): void {
  for (const { state } of fleet.nodes.values()) {
    excuseServerOutage(state, fromMs, untilMs);
    trackNews(fleet, state);
  }
}

function nodeNewsDueMs(state: NodeState): number {
  return Math.min(silenceDueMs(state.liveness), conflictClearsMs(state.conflict));
}

/** Time of arrival goes on to `toMs`: everything that became news before it finds its wells. */
export function dispatchNews(fleet: Fleet, toMs: number, emit: EmitEffect): void {
  if (toMs <= fleet.newsDueMs) return;
  const items: NewsItem[] = [];
  for (const [node, { state }] of fleet.nodes) {
    const mine = drainNews(state, toMs);
    if (mine.length === 0) continue;
    emit({ is: 'node-changed', node });
    items.push(...mine);
  }
  items.sort(
    (a, b) => a.atMs - b.atMs || (a.node.node < b.node.node ? -1 : Number(a.node.node > b.node.node)),
  );
  for (const item of items) routeNewsItem(fleet, item, emit);
  let dueMs = Number.POSITIVE_INFINITY;
  for (const site of fleet.sites.values()) {
    if (site.silent.length === 0) continue;
    const nodes = nodesOfSite(fleet, site.site, toMs);
    applySiteOutput(fleet, site, emit, (output) => advanceSite(site, nodes, toMs, output));
    dueMs = Math.min(dueMs, nextSiteDueMs(site, nodes));
  }
  for (const { state } of fleet.nodes.values()) dueMs = Math.min(dueMs, nodeNewsDueMs(state));
  fleet.newsDueMs = dueMs;
}

function routeNewsItem(fleet: Fleet, item: NewsItem, emit: EmitEffect): void {
  const name = siteOf(fleet, item.node.node, item.atMs);
  // What a sensor can show is no business of the site.
  if (name === undefined || item.node.news === 'full-scale') {
    deliverNews(fleet, item, emit);
    return;
  }
  const site = getOrCreateSite(fleet, name);
  const nodes = nodesOfSite(fleet, name, item.atMs);
  // Sites speak in order of time too: another one may have waited for something before this.
  applySiteOutput(fleet, site, emit, (output) => handleSiteNews(site, nodes, item, output));
}

function getOrCreateSite(fleet: Fleet, name: string): SiteState {
  const known = fleet.sites.get(name);
  if (known) return known;
  const site = newSite(name);
  fleet.sites.set(name, site);
  return site;
}

function applySiteOutput(
  fleet: Fleet,
  site: SiteState,
  emit: EmitEffect,
  update: (output: SiteOutput) => void,
): void {
  const before = site.silent;
  const output: SiteOutput = { news: [], site: [] };
  update(output);
  for (const item of output.news) deliverNews(fleet, item, emit);
  for (const change of output.site) {
    const event = siteAlarmEvent(change);
    emit({ is: 'site-alarm', event, atMs: change.atMs });
    publishEvent(fleet, event, change.atMs, emit);
  }
  // Whoever falls silent or is heard makes the list anew; every other change has output.
  if (site.silent !== before || output.news.length > 0 || output.site.length > 0)
    emit({ is: 'site-changed', site });
}

/** News never stands before what its well has passed: it was not known then. */
function deliverNews(fleet: Fleet, item: NewsItem, emit: EmitEffect): void {
  const fedFrom = fleet.nodes.get(item.node.node)?.hello?.fedFrom;
  const node = item.node.news === 'silent' && fedFrom !== undefined ? { ...item.node, fedFrom } : item.node;
  // A well that will read from it only later hears it now: it knows by itself which of its channels
  // that is about.
  const whenMs = node.news === 'full-scale' ? undefined : item.atMs;
  for (const well of wellsOf(fleet.readTable, node.node, whenMs)) {
    const pipeline = fleet.pipelines.get(well)!;
    const { atMs } = addInput(pipeline, { atMs: item.atMs, node });
    fleet.dirtyWells.add(pipeline);
    emit({ is: 'news', well, atMs, node });
  }
}

function siteOf(fleet: Fleet, node: string, atMs: number): string | undefined {
  for (const well of wellsOf(fleet.readTable, node, atMs)) {
    const site = cardAt(fleet.periods, well, atMs)?.site;
    if (site !== undefined) return site;
  }
  return undefined;
}

/** The nodes of a site that were ever heard. */
function nodesOfSite(fleet: Fleet, site: string, atMs: number): SiteNode[] {
  const nodes: SiteNode[] = [];
  for (const [node, { hello }] of fleet.nodes) {
    if (siteOf(fleet, node, atMs) !== site) continue;
    const stock = wellsOf(fleet.readTable, node, atMs).some((well) =>
      cardAt(fleet.periods, well, atMs)?.uses.includes('stock'),
    );
    nodes.push({ node, priority: stock || hello?.fedFrom === 'pump-circuit' ? 'now' : 'soon' });
  }
  return nodes;
}
