/**
 * When half of a site's nodes, two or more, fall silent within 5 min, it is the link or the site's
 * power: one `site-silent` stands for all of them (contract, section 6), and what each would have
 * said is held back. A node that falls silent on a site with others is told 5 min later than one
 * that stands alone, so that the others can show whether it is they too.
 */
import type { Priority } from '../../../shared/text/en/alarms/kinds.ts';
import type { NewsItem } from './news.ts';

/** The contract's: within this the nodes of a site fall silent together. */
const GROUP_WINDOW_MS = 300_000;

/** A node as its site knows it. */
export interface SiteNode {
  node: string;
  /** How soon its silence would have to be looked at. */
  priority: Priority;
}

interface SilentNode {
  node: string;
  /** Last heard. */
  sinceMs: number;
  /** When its silence became news. */
  dueMs: number;
  /** The well was told, by itself or with its site. */
  reported: 'not-yet' | 'alone' | 'with-site';
}

export interface SiteState {
  site: string;
  silent: SilentNode[];
  /** When `site-silent` was raised, where it stands. */
  raisedMs?: number;
}

export interface SiteOutput {
  /** To be given to the wells that read from each node. */
  news: NewsItem[];
  /** To be told of the site itself. */
  site: SiteChange[];
}

/** `site-silent` was raised or cleared; its words are src/core/alarms/sensing/site-silent.ts. */
export type SiteChange =
  | {
      is: 'raised';
      site: string;
      atMs: number;
      sinceMs: number;
      nodes: string[];
      nodeCount: number;
      priority: Priority;
    }
  | { is: 'cleared'; site: string; atMs: number };

export function newSite(site: string): SiteState {
  return { site, silent: [] };
}

/**
 * News of one of the site's nodes, in order of time; what is not about silence goes straight
 * through.
 */
export function handleSiteNews(
  site: SiteState,
  nodes: readonly SiteNode[],
  item: NewsItem,
  output: SiteOutput,
): void {
  advanceSite(site, nodes, item.atMs, output);
  const { node } = item;
  if (node.news === 'silent') {
    const others = site.silent.filter((silent) => silent.node !== node.node);
    site.silent = [
      ...others,
      { node: node.node, sinceMs: node.sinceMs, dueMs: item.atMs, reported: 'not-yet' },
    ];
    evaluateSite(site, nodes, item.atMs, output);
  } else if (node.news === 'heard') {
    const mine = site.silent.find((silent) => silent.node === node.node);
    site.silent = site.silent.filter((silent) => silent !== mine);
    if (mine && mine.reported !== 'not-yet') output.news.push(item);
    evaluateSite(site, nodes, item.atMs, output);
  } else output.news.push(item);
}

/**
 * Time goes on to `nowMs`: nodes whose site did not fall silent with them are told by themselves.
 */
export function advanceSite(
  site: SiteState,
  nodes: readonly SiteNode[],
  nowMs: number,
  output: SiteOutput,
): void {
  if (nodes.length < 2 && site.silent.length === 0) return;
  for (const silent of site.silent) {
    const dueMs = nodeDueMs(silent, nodes);
    if (silent.reported === 'not-yet' && dueMs < nowMs) reportAlone(silent, dueMs, output);
  }
}

/** When the site has something to say though no node does; Infinity where it won't. */
export function nextSiteDueMs(site: SiteState, nodes: readonly SiteNode[]): number {
  let nextMs = Number.POSITIVE_INFINITY;
  for (const silent of site.silent) {
    if (silent.reported === 'not-yet') nextMs = Math.min(nextMs, nodeDueMs(silent, nodes));
  }
  return nextMs;
}

function nodeDueMs(silent: SilentNode, nodes: readonly SiteNode[]): number {
  return nodes.length < 2 ? silent.dueMs : silent.dueMs + GROUP_WINDOW_MS;
}

function reportAlone(silent: SilentNode, atMs: number, output: SiteOutput): void {
  silent.reported = 'alone';
  output.news.push({ atMs, node: { news: 'silent', node: silent.node, sinceMs: silent.sinceMs } });
}

/** The largest group of nodes that fell silent within 5 min of each other. */
function largestGroup(silent: readonly SilentNode[]): SilentNode[] {
  const byTime = [...silent].sort((a, b) => a.sinceMs - b.sinceMs || (a.node < b.node ? -1 : 1));
  let best: SilentNode[] = [];
  for (const first of byTime) {
    const group = byTime.filter(
      (other) => other.sinceMs >= first.sinceMs && other.sinceMs <= first.sinceMs + GROUP_WINDOW_MS,
    );
    if (group.length > best.length) best = group;
  }
  return best;
}

function evaluateSite(site: SiteState, nodes: readonly SiteNode[], atMs: number, output: SiteOutput): void {
  if (nodes.length < 2) {
    advanceSite(site, nodes, atMs + 1, output);
    return;
  }
  const minSilent = Math.max(2, nodes.length / 2);
  if (site.raisedMs === undefined) {
    const group = largestGroup(site.silent);
    if (group.length >= minSilent) raiseSiteSilent(site, nodes, group, atMs, output);
    return;
  }
  for (const silent of site.silent) {
    if (silent.reported === 'not-yet') reportWithSite(site, silent, atMs, output);
  }
  if (site.silent.length >= minSilent) return;
  clearSiteSilent(site, atMs, output);
}

function reportWithSite(site: SiteState, silent: SilentNode, atMs: number, output: SiteOutput): void {
  silent.reported = 'with-site';
  output.news.push({
    atMs,
    node: { news: 'silent', node: silent.node, sinceMs: silent.sinceMs, withSite: site.site },
  });
}

function raiseSiteSilent(
  site: SiteState,
  nodes: readonly SiteNode[],
  group: readonly SilentNode[],
  atMs: number,
  output: SiteOutput,
): void {
  site.raisedMs = atMs;
  const names = new Set(group.map((silent) => silent.node));
  const now = nodes.some((node) => names.has(node.node) && node.priority === 'now');
  const sinceMs = Math.min(...group.map((silent) => silent.sinceMs));
  output.site.push({
    is: 'raised',
    site: site.site,
    atMs,
    sinceMs,
    nodes: group.map((silent) => silent.node),
    nodeCount: nodes.length,
    priority: now ? 'now' : 'soon',
  });
  for (const silent of site.silent) {
    if (silent.reported !== 'with-site') reportWithSite(site, silent, atMs, output);
  }
}

/** Fewer than half are silent now: the site is back, and the rest are each silent by themselves. */
function clearSiteSilent(site: SiteState, atMs: number, output: SiteOutput): void {
  delete site.raisedMs;
  output.site.push({ is: 'cleared', site: site.site, atMs });
  for (const silent of site.silent) reportAlone(silent, atMs, output);
}
