/**
 * Somebody says that a waiting node is one of ours: its packs are kept from now on, and the names
 * that it speaks for count.
 */
import { isSourceNode } from '../domain/sources.ts';
import { republishFullScale } from '../readings/node.ts';
import { wellCeiling } from './ceiling.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { trackNews } from './node-news.ts';
import { ensureWellForNode } from './nodes.ts';
import { addSpokenFor } from './spoken-for.ts';

export function approveNode(fleet: Fleet, node: string, nowMs: number, emit: EmitEffect): void {
  const entry = fleet.nodes.get(node);
  if (!entry) {
    emit({ is: 'rejected', why: { reason: 'unknown-node', figures: { node } } });
    return;
  }
  const ceiling = entry.approved || isSourceNode(fleet.readTable, node) ? undefined : wellCeiling(fleet);
  if (ceiling !== undefined) {
    emit({ is: 'rejected', why: { reason: 'no-room-for-node', figures: { node, ceiling } } });
    return;
  }
  entry.approved = true;
  entry.ackDue = true;
  ensureWellForNode(fleet, node, emit);
  // Behind our own broker its hello brought its credential along; here nobody but the hello knows
  // the names.
  if (entry.hello && !fleet.rules.approveAll)
    addSpokenFor(fleet, entry, entry.hello, { given: undefined, nowMs }, emit);
  republishFullScale(entry.state);
  trackNews(fleet, entry.state);
  emit({ is: 'node-changed', node });
}
