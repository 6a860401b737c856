/**
 * What arrival says of nodes while the server runs: silence, lost power, two boxes under one name. Each piece of news becomes an input
 * of the wells that read from its node, with a time of its own, and is kept; silence goes by way of the node's site, which speaks for
 * all of its nodes where half of them fall silent together.
 */
import type { NewsItem } from '../../core/readings/news.ts';
import { drainNews } from '../../core/readings/node.ts';
import {
  newSite,
  advanceSite,
  handleSiteNews,
  type SiteNode,
  type SiteOutput,
  type SiteState,
} from '../../core/readings/site-silence.ts';
import { cardAt, wellsOf } from '../../core/fleet/read-table.ts';
import { siteAlarmEvent } from '../../core/fleet/site-event.ts';
import { addInput } from '../../core/fleet/well-pipeline.ts';
import { renameSavedSite } from './old-names.ts';
import type { LiveState } from './state.ts';
import { publishEvent } from './alarm-rows.ts';

/** What a site knows outlives the server, as the alarm it raised does. */
const siteKey = (site: string): string => `site/${site}`;

/** Our clock goes on to `nowMs`: everything that became news before it finds its wells. The changes are pushed; the caller commits. */
export function dispatchNews(live: LiveState, nowMs: number): void {
  const items: NewsItem[] = [];
  for (const [node, entry] of live.nodes) {
    const mine = drainNews(entry.state, nowMs);
    if (mine.length === 0) continue;
    // What was handed on is no news of its book any more, in the same commit: a crash tells it neither twice nor never.
    live.dirtyNodes.add(node);
    items.push(...mine);
  }
  items.sort(
    (a, b) => a.atMs - b.atMs || (a.node.node < b.node.node ? -1 : Number(a.node.node > b.node.node)),
  );
  for (const item of items) routeNewsItem(live, item, nowMs);
  for (const site of live.sites.values()) {
    if (site.silent.length === 0) continue;
    applySiteOutput(live, site, nowMs, (output) =>
      advanceSite(site, nodesOfSite(live, site.site, nowMs), nowMs, output),
    );
  }
}

function routeNewsItem(live: LiveState, item: NewsItem, nowMs: number): void {
  const name = siteOf(live, item.node.node, item.atMs);
  // What a sensor can show is no business of the site.
  if (name === undefined || item.node.news === 'full-scale') {
    deliverNews(live, item);
    return;
  }
  const site = getOrCreateSite(live, name);
  applySiteOutput(live, site, nowMs, (output) =>
    handleSiteNews(site, nodesOfSite(live, name, item.atMs), item, output),
  );
}

function getOrCreateSite(live: LiveState, name: string): SiteState {
  const site = live.sites.get(name) ?? newSite(name);
  live.sites.set(name, site);
  return site;
}

function applySiteOutput(
  live: LiveState,
  site: SiteState,
  nowMs: number,
  update: (output: SiteOutput) => void,
): void {
  const before = JSON.stringify(site);
  const output: SiteOutput = { news: [], site: [] };
  update(output);
  for (const item of output.news) deliverNews(live, item);
  for (const change of output.site) publishEvent(live, siteAlarmEvent(change), nowMs);
  const after = JSON.stringify(site);
  if (after !== before) live.changes.push({ change: 'setting', key: siteKey(site.site), value: after });
}

/** News never stands before what its well has passed: it was not known then. */
function deliverNews(live: LiveState, item: NewsItem): void {
  const fedFrom = live.nodes.get(item.node.node)?.hello?.fedFrom;
  const node = item.node.news === 'silent' && fedFrom !== undefined ? { ...item.node, fedFrom } : item.node;
  // A well that will read from it only later hears it now: it knows by itself which of its channels that is about.
  const whenMs = node.news === 'full-scale' ? undefined : item.atMs;
  for (const well of wellsOf(live.readTable, node.node, whenMs)) {
    const pipeline = live.pipelines.get(well)!;
    const atMs = Math.max(item.atMs, pipeline.advancedToMs + 1);
    addInput(pipeline, { atMs, node });
    live.changes.push({ change: 'news', well, atMs, body: node });
  }
}

function siteOf(live: LiveState, node: string, atMs: number): string | undefined {
  for (const well of wellsOf(live.readTable, node, atMs)) {
    const site = cardAt(live.periods, well, atMs)?.site;
    if (site !== undefined) return site;
  }
  return undefined;
}

/** The nodes of a site that were ever heard. */
function nodesOfSite(live: LiveState, site: string, atMs: number): SiteNode[] {
  const nodes: SiteNode[] = [];
  for (const [node, { hello }] of live.nodes) {
    if (siteOf(live, node, atMs) !== site) continue;
    const stock = wellsOf(live.readTable, node, atMs).some((well) =>
      cardAt(live.periods, well, atMs)?.uses.includes('stock'),
    );
    nodes.push({ node, priority: stock || hello?.fedFrom === 'pump-circuit' ? 'now' : 'soon' });
  }
  return nodes;
}

/** What is kept of the sites of all cards. A card names a site before anything is kept of it, so these are all. */
export async function loadSites(live: LiveState): Promise<void> {
  for (const name of new Set(live.periods.flatMap(({ card }) => card.site ?? []))) {
    const stored = await live.options.store.getValue(siteKey(name));
    if (stored === undefined) continue;
    const site = JSON.parse(stored) as SiteState;
    renameSavedSite(site);
    live.sites.set(name, site);
  }
}
