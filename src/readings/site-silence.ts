/**
 * When half of a site's nodes, two or more, fall silent within 5 min, it is the link or the site's power: one `site-silent` stands for all
 * of them (contract, section 6), and what each would have said is held back. A node that falls silent on a site with others is told
 * 5 min later than one that stands alone, so that the others can show whether it is they too.
 */
import type { Priority } from '../../shared/words/kinds.ts';
import type { NewsItem } from './news.ts';

/** The contract's: within this the nodes of a site fall silent together. */
const TOGETHER_MS = 300_000;

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
  told: 'not-yet' | 'alone' | 'with-site';
}

export interface SiteState {
  site: string;
  silent: SilentNode[];
  /** When `site-silent` was raised, where it stands. */
  raisedMs?: number;
}

export interface SiteSays {
  /** To be given to the wells that read from each node. */
  news: NewsItem[];
  /** To be told of the site itself. */
  site: SiteChange[];
}

/** `site-silent` was raised or cleared; its words are src/watch/site-silent.ts. */
export type SiteChange =
  | {
      is: 'raised';
      site: string;
      atMs: number;
      sinceMs: number;
      nodes: string[];
      of: number;
      priority: Priority;
    }
  | { is: 'cleared'; site: string; atMs: number };

export function newSite(site: string): SiteState {
  return { site, silent: [] };
}

/** News of one of the site's nodes, in order of time; what is not about silence goes straight through. */
export function siteHears(site: SiteState, nodes: readonly SiteNode[], item: NewsItem, says: SiteSays): void {
  passSite(site, nodes, item.atMs, says);
  const { node } = item;
  if (node.news === 'silent') {
    const others = site.silent.filter((silent) => silent.node !== node.node);
    site.silent = [...others, { node: node.node, sinceMs: node.sinceMs, dueMs: item.atMs, told: 'not-yet' }];
    judge(site, nodes, item.atMs, says);
  } else if (node.news === 'heard') {
    const mine = site.silent.find((silent) => silent.node === node.node);
    site.silent = site.silent.filter((silent) => silent !== mine);
    if (mine && mine.told !== 'not-yet') says.news.push(item);
    judge(site, nodes, item.atMs, says);
  } else says.news.push(item);
}

/** Time goes on to `nowMs`: nodes whose site did not fall silent with them are told by themselves. */
export function passSite(site: SiteState, nodes: readonly SiteNode[], nowMs: number, says: SiteSays): void {
  if (nodes.length < 2 && site.silent.length === 0) return;
  for (const silent of site.silent) {
    const dueMs = siteDueMs(silent, nodes);
    if (silent.told === 'not-yet' && dueMs < nowMs) tellAlone(silent, dueMs, says);
  }
}

/** When the site has something to say though no node does; Infinity where it won't. */
export function siteNextMs(site: SiteState, nodes: readonly SiteNode[]): number {
  let nextMs = Number.POSITIVE_INFINITY;
  for (const silent of site.silent) {
    if (silent.told === 'not-yet') nextMs = Math.min(nextMs, siteDueMs(silent, nodes));
  }
  return nextMs;
}

function siteDueMs(silent: SilentNode, nodes: readonly SiteNode[]): number {
  return nodes.length < 2 ? silent.dueMs : silent.dueMs + TOGETHER_MS;
}

function tellAlone(silent: SilentNode, atMs: number, says: SiteSays): void {
  silent.told = 'alone';
  says.news.push({ atMs, node: { news: 'silent', node: silent.node, sinceMs: silent.sinceMs } });
}

/** The largest group of nodes that fell silent within 5 min of each other. */
function together(silent: readonly SilentNode[]): SilentNode[] {
  const byTime = [...silent].sort((a, b) => a.sinceMs - b.sinceMs || (a.node < b.node ? -1 : 1));
  let best: SilentNode[] = [];
  for (const first of byTime) {
    const group = byTime.filter(
      (other) => other.sinceMs >= first.sinceMs && other.sinceMs <= first.sinceMs + TOGETHER_MS,
    );
    if (group.length > best.length) best = group;
  }
  return best;
}

function judge(site: SiteState, nodes: readonly SiteNode[], atMs: number, says: SiteSays): void {
  if (nodes.length < 2) {
    passSite(site, nodes, atMs + 1, says);
    return;
  }
  const needed = Math.max(2, nodes.length / 2);
  if (site.raisedMs === undefined) {
    const group = together(site.silent);
    if (group.length >= needed) raise(site, nodes, group, atMs, says);
    return;
  }
  for (const silent of site.silent) {
    if (silent.told === 'not-yet') tellWithSite(site, silent, atMs, says);
  }
  if (site.silent.length >= needed) return;
  clear(site, atMs, says);
}

function tellWithSite(site: SiteState, silent: SilentNode, atMs: number, says: SiteSays): void {
  silent.told = 'with-site';
  says.news.push({
    atMs,
    node: { news: 'silent', node: silent.node, sinceMs: silent.sinceMs, withSite: site.site },
  });
}

function raise(
  site: SiteState,
  nodes: readonly SiteNode[],
  group: readonly SilentNode[],
  atMs: number,
  says: SiteSays,
): void {
  site.raisedMs = atMs;
  const names = new Set(group.map((silent) => silent.node));
  const now = nodes.some((node) => names.has(node.node) && node.priority === 'now');
  const sinceMs = Math.min(...group.map((silent) => silent.sinceMs));
  says.site.push({
    is: 'raised',
    site: site.site,
    atMs,
    sinceMs,
    nodes: group.map((silent) => silent.node),
    of: nodes.length,
    priority: now ? 'now' : 'soon',
  });
  for (const silent of site.silent) {
    if (silent.told !== 'with-site') tellWithSite(site, silent, atMs, says);
  }
}

/** Fewer than half are silent now: the site is back, and the rest are each silent by themselves. */
function clear(site: SiteState, atMs: number, says: SiteSays): void {
  delete site.raisedMs;
  says.site.push({ is: 'cleared', site: site.site, atMs });
  for (const silent of site.silent) tellAlone(silent, atMs, says);
}
