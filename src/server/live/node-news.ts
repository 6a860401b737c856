/**
 * News of nodes while the server runs: what it changed is kept in the turn's commit, and what a
 * site says is told.
 */
import { dispatchNews, type NewsEffect } from '../../core/fleet/node-news.ts';
import type { SiteState } from '../../core/readings/site-silence.ts';
import { publishEvent } from './alarm-rows.ts';
import { renameSavedSite } from './old-names.ts';
import type { LiveState } from './state.ts';

/** What a site knows outlives the server, as the alarm it raised does. */
const siteKey = (site: string): string => `site/${site}`;

/**
 * Our clock goes on to `nowMs`: everything that became news before it finds its wells. The changes
 * are pushed; the caller commits.
 */
export function handleNodeNews(live: LiveState, nowMs: number): void {
  dispatchNews(live, nowMs, (effect) => applyEffect(live, effect, nowMs));
}

function applyEffect(live: LiveState, effect: NewsEffect, nowMs: number): void {
  switch (effect.is) {
    case 'news':
      live.changes.push({ change: 'news', well: effect.well, atMs: effect.atMs, body: effect.node });
      break;
    case 'site-alarm':
      publishEvent(live, effect.event, nowMs);
      break;
    case 'site-changed': {
      const { site } = effect;
      live.changes.push({ change: 'setting', key: siteKey(site.site), value: JSON.stringify(site) });
      break;
    }
    case 'node-changed':
      // What was handed on is no news of its book any more, in the same commit: a crash tells it
      // neither twice nor never.
      live.dirtyNodes.add(effect.node);
      break;
    default:
      effect satisfies never;
  }
}

/**
 * What is kept of the sites of all cards. A card names a site before anything is kept of it, so
 * these are all.
 */
export async function loadSites(live: LiveState): Promise<void> {
  for (const name of new Set(live.periods.flatMap(({ card }) => card.site ?? []))) {
    const stored = await live.options.store.getValue(siteKey(name));
    if (stored === undefined) continue;
    const site = JSON.parse(stored) as SiteState;
    renameSavedSite(site);
    live.sites.set(name, site);
  }
}
