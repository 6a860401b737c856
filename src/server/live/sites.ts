/** What a site knows outlives the server, as the alarm it raised does. */
import type { SiteState } from '../../core/readings/site-silence.ts';
import { renameSavedSite } from './old-names.ts';
import type { LiveState } from './state.ts';

export const siteKey = (site: string): string => `site/${site}`;

/**
 * What is kept of the sites of all cards. A card names a site before anything is kept of it, so
 * these are all.
 */
export async function loadSites(live: LiveState): Promise<void> {
  for (const name of new Set([...live.periods.values()].flat().flatMap(({ card }) => card.site ?? []))) {
    const stored = await live.options.store.getValue(siteKey(name));
    if (stored === undefined) continue;
    const site = JSON.parse(stored) as SiteState;
    renameSavedSite(site);
    live.sites.set(name, site);
  }
}
