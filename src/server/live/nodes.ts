/** The nodes that were heard, and a well made for a node that no card names. */
import { isSourceNode } from '../../core/domain/sources.ts';
import { addDefaultWell } from '../../core/fleet/routing.ts';
import { newNode } from '../../core/readings/node.ts';
import type { LiveState, NodeEntry } from './state.ts';

/**
 * The node's entry, made when it is first heard; without a card that reads from it, it is a well of
 * its own name.
 */
export function getOrCreateNode(live: LiveState, node: string): NodeEntry {
  const known = live.nodes.get(node);
  if (known) return known;
  const entry: NodeEntry = {
    state: newNode(node),
    approved: live.options.approveAll,
    ackDue: true,
    ackSentAtMs: 0,
    savedAtMs: 0,
    unsaved: true,
  };
  live.dirtyNodes.add(node);
  addNode(live, node, entry);
  return entry;
}

function addNode(live: LiveState, node: string, entry: NodeEntry): void {
  live.nodes.set(node, entry);
  if (entry.approved) ensureWellForNode(live, node);
}

/**
 * A well made because nothing said otherwise is remembered as such: the first card that names its
 * node takes the node over.
 */
export const defaultWellKey = (node: string): string => `own-well/${node}`;

/**
 * A node of which no card says anything is a well of the same name with one pump (contract, before
 * section 1).
 */
export function ensureWellForNode(live: LiveState, node: string): void {
  if (isSourceNode(live.readTable, node)) return;
  addDefaultWell(live, node);
  live.changes.push({ change: 'setting', key: defaultWellKey(node), value: 'yes' });
}

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
