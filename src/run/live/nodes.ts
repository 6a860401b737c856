/** The nodes that were heard, the wells that read from them, and a well made for a node that no card names. */
import { readCard } from '../../card/read-card.ts';
import type { Card } from '../../card/card.ts';
import { isRead } from '../../card/reads.ts';
import { newWell } from '../../engine/engine.ts';
import { newNode } from '../../readings/node.ts';
import { newLine, type Line } from './line.ts';
import { retable, type LiveState, type NodeEntry } from './state.ts';

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

export function addNode(live: LiveState, node: string, entry: NodeEntry): void {
  live.nodes.set(node, entry);
  if (entry.letIn) wellForNode(live, node);
}

/** A node of which no card says anything is a well of the same name with one pump (contract, before section 1). */
export function wellForNode(live: LiveState, node: string): void {
  if (!isRead(live.table, node)) addWell(live, plainCard(node));
}

export function plainCard(well: string): Card {
  const read = readCard({ well });
  if ('problem' in read) throw new Error(`Cannot make a card for ${well}: ${read.problem}`);
  return read.card;
}

export function addWell(live: LiveState, card: Card): Line {
  const line = newLine(card.well, newWell(card));
  live.lines.set(card.well, line);
  live.cards.set(card.well, card);
  retable(live);
  return line;
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
