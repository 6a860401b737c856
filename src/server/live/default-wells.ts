/**
 * A well made because nothing said otherwise is remembered as such: the first card that names its
 * node takes the node over.
 */
import { addDefaultWell } from '../../core/fleet/routing.ts';
import type { LiveState } from './state.ts';

export const defaultWellKey = (node: string): string => `own-well/${node}`;

/**
 * Makes the node's own well again if it had one before the server started anew. Called before any
 * card is.
 */
export async function restoreDefaultWell(live: LiveState, node: string): Promise<void> {
  if ((await live.options.store.getValue(defaultWellKey(node))) !== undefined) addDefaultWell(live, node);
}

/**
 * A well that was handed over to us is there, though no card and no node may say so. Called before
 * any card is.
 */
export function ensureImportedWell(live: LiveState, well: string): void {
  if (!live.pipelines.has(well)) addDefaultWell(live, well);
}
