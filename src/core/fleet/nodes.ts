/** The nodes that were heard, and a well made for a node that no card names. */
import { isSourceNode } from '../domain/sources.ts';
import { newNode, type NodeState } from '../readings/node.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet, FleetNode } from './fleet.ts';
import { addDefaultWell } from './routing.ts';

export function newFleetNode(state: NodeState, approved: boolean): FleetNode {
  return { state, approved, ackDue: true, ackSentAtMs: 0, savedAtMs: 0, unsaved: true };
}

/**
 * The node's entry, made when it is first heard; without a card that reads from it, it is a well of
 * its own name.
 */
export function getOrCreateNode(fleet: Fleet, node: string, emit: EmitEffect): FleetNode {
  const known = fleet.nodes.get(node);
  if (known) return known;
  const entry = newFleetNode(newNode(node), fleet.rules.approveAll);
  fleet.nodes.set(node, entry);
  emit({ is: 'node-changed', node });
  if (entry.approved) ensureWellForNode(fleet, node, emit);
  return entry;
}

/**
 * A node of which no card says anything is a well of the same name with one pump (contract, before
 * section 1). It is remembered as such: the first card that names its node takes the node over. In
 * a recording it becomes one with its first pack.
 */
export function ensureWellForNode(fleet: Fleet, node: string, emit: EmitEffect): void {
  if (fleet.rules.runsOnce || isSourceNode(fleet.readTable, node)) return;
  addDefaultWell(fleet, node);
  emit({ is: 'default-well', node });
}
