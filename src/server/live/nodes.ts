/** The nodes that were heard, the wells that read from them, and a well made for a node that no card names. */
import type { Card } from '../../core/domain/card.ts';
import { defaultCardForNode } from '../../core/domain/read-card.ts';
import { isSourceNode } from '../../core/domain/sources.ts';
import { newWell } from '../../core/well/engine.ts';
import { newNode } from '../../core/readings/node.ts';
import { startCardPeriod } from '../../core/fleet/read-table.ts';
import { newPipeline, type WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { addPeriod, rebuildReadTable, type LiveState, type NodeEntry } from './state.ts';

/** The node's entry, made when it is first heard; without a card that reads from it, it is a well of its own name. */
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

/** A well made because nothing said otherwise is remembered as such: the first card that names its node takes the node over. */
export const defaultWellKey = (node: string): string => `own-well/${node}`;

/** A node of which no card says anything is a well of the same name with one pump (contract, before section 1). */
export function ensureWellForNode(live: LiveState, node: string): void {
  if (isSourceNode(live.readTable, node)) return;
  addDefaultWell(live, node);
  live.changes.push({ change: 'setting', key: defaultWellKey(node), value: 'yes' });
}

/** Makes the node's own well again if it had one before the server started anew. Called before any card is. */
export async function restoreDefaultWell(live: LiveState, node: string): Promise<void> {
  if ((await live.options.store.getValue(defaultWellKey(node))) !== undefined) addDefaultWell(live, node);
}

/** A well that was handed over to us is there, though no card and no node may say so. Called before any card is. */
export function ensureImportedWell(live: LiveState, well: string): void {
  if (!live.pipelines.has(well)) addDefaultWell(live, well);
}

function addDefaultWell(live: LiveState, node: string): void {
  const card = defaultCardForNode(node);
  addPipeline(live, card);
  addPeriod(live, {
    card,
    sinceMs: Number.NEGATIVE_INFINITY,
    untilMs: Number.POSITIVE_INFINITY,
    byDefault: true,
  });
}

/** Every well begins as its name alone, also when its first card comes before its first reading: cards are inputs with a time. */
function addPipeline(live: LiveState, card: Card): WellPipeline {
  const pipeline = newPipeline(card.well, newWell(defaultCardForNode(card.well)));
  live.pipelines.set(card.well, pipeline);
  live.cards.set(card.well, card);
  return pipeline;
}

/** A card counts from `atMs` on, for where the well's readings come from. What else it says reaches the engine as an act. */
export function applyCard(live: LiveState, card: Card, atMs: number): void {
  if (!live.pipelines.has(card.well)) {
    addPipeline(live, card);
    const always = { sinceMs: Number.NEGATIVE_INFINITY, untilMs: Number.POSITIVE_INFINITY };
    live.periods.push({ card: defaultCardForNode(card.well), ...always });
  }
  startCardPeriod(live.periods, card, atMs);
  live.cards.set(card.well, card);
  rebuildReadTable(live);
}

/** The wells that read anything from this node. */
export function pipelinesForNode(live: LiveState, node: string): WellPipeline[] {
  const known = live.pipelinesByNode.get(node);
  if (known) return known;
  const found = new Set<WellPipeline>();
  for (const feeds of live.readTable.get(node)?.values() ?? []) {
    for (const feed of feeds) {
      const pipeline = live.pipelines.get(feed.well);
      if (pipeline) found.add(pipeline);
    }
  }
  const pipelines = [...found];
  live.pipelinesByNode.set(node, pipelines);
  return pipelines;
}
