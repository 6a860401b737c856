/** The nodes that were heard, the wells that read from them, and a well made for a node that no card names. */
import type { Card } from '../../card/card.ts';
import { cardOfNode } from '../../card/read-card.ts';
import { isRead } from '../../card/reads.ts';
import { newWell } from '../../engine/engine.ts';
import { newNode } from '../../readings/node.ts';
import { changeCard } from '../replay/table.ts';
import { newLine, type Line } from './line.ts';
import { addPeriod, retable, type LiveState, type NodeEntry } from './state.ts';

/** The node's entry, made when it is first heard; without a card that reads from it, it is a well of its own name. */
export function touchNode(live: LiveState, node: string): NodeEntry {
  const known = live.nodes.get(node);
  if (known) return known;
  const entry: NodeEntry = {
    state: newNode(node),
    letIn: live.options.letInAll,
    keptDue: true,
    keptAtMs: 0,
    savedAtMs: 0,
    unsaved: true,
  };
  live.toSave.add(node);
  addNode(live, node, entry);
  return entry;
}

function addNode(live: LiveState, node: string, entry: NodeEntry): void {
  live.nodes.set(node, entry);
  if (entry.letIn) wellForNode(live, node);
}

/** A well made because nothing said otherwise is remembered as such: the first card that names its node takes the node over. */
export const ownWellKey = (node: string): string => `own-well/${node}`;

/** A node of which no card says anything is a well of the same name with one pump (contract, before section 1). */
export function wellForNode(live: LiveState, node: string): void {
  if (isRead(live.table, node)) return;
  ownWell(live, node);
  live.changes.push({ change: 'value', key: ownWellKey(node), value: 'yes' });
}

/** Makes the node's own well again if it had one before the server started anew. Called before any card is. */
export function wellForKnownNode(live: LiveState, node: string): void {
  if (live.options.store.value(ownWellKey(node)) !== undefined) ownWell(live, node);
}

/** A well that was handed over to us is there, though no card and no node may say so. Called before any card is. */
export function handedWell(live: LiveState, well: string): void {
  if (!live.lines.has(well)) ownWell(live, well);
}

function ownWell(live: LiveState, node: string): void {
  const card = cardOfNode(node);
  addLine(live, card);
  addPeriod(live, {
    card,
    sinceMs: Number.NEGATIVE_INFINITY,
    untilMs: Number.POSITIVE_INFINITY,
    byDefault: true,
  });
}

/** Every well begins as its name alone, also when its first card comes before its first reading: cards are inputs with a time. */
function addLine(live: LiveState, card: Card): Line {
  const line = newLine(card.well, newWell(cardOfNode(card.well)));
  live.lines.set(card.well, line);
  live.cards.set(card.well, card);
  return line;
}

/** A card counts from `atMs` on, for where the well's readings come from. What else it says reaches the engine as an act. */
export function useCard(live: LiveState, card: Card, atMs: number): void {
  if (!live.lines.has(card.well)) {
    addLine(live, card);
    const always = { sinceMs: Number.NEGATIVE_INFINITY, untilMs: Number.POSITIVE_INFINITY };
    live.periods.push({ card: cardOfNode(card.well), ...always });
  }
  changeCard(live.periods, card, atMs);
  live.cards.set(card.well, card);
  retable(live);
}

/** The wells that read anything from this node. */
export function feedLines(live: LiveState, node: string): Line[] {
  const known = live.feeding.get(node);
  if (known) return known;
  const found = new Set<Line>();
  for (const feeds of live.table.get(node)?.values() ?? []) {
    for (const feed of feeds) {
      const line = live.lines.get(feed.well);
      if (line) found.add(line);
    }
  }
  const lines = [...found];
  live.feeding.set(node, lines);
  return lines;
}
