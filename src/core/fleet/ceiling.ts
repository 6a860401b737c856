/**
 * How many nodes and wells one server takes: a node with a slip in its program, or a stolen
 * credential, must not fill memory and disk with names. What is known already is never dropped for
 * it, also where an older version took more.
 */
import { isSourceNode } from '../domain/sources.ts';
import type { Fleet } from './fleet.ts';

/** Most nodes and wells. */
export interface Ceiling {
  nodes: number;
  wells: number;
}

/** Why no well can be added; undefined where one can. */
export function wellCeiling({ pipelines, rules }: Fleet): string | undefined {
  const most = rules.ceiling.wells;
  return pipelines.size < most
    ? undefined
    : `one server watches ${most} wells at most, and ${pipelines.size} are known`;
}

/** Why this node cannot be added, with the well that it would be of its own. */
export function nodeCeiling(fleet: Fleet, node: string): string | undefined {
  const { nodes, rules } = fleet;
  const most = rules.ceiling.nodes;
  if (nodes.size >= most) return `one server takes ${most} nodes at most, and ${nodes.size} are known`;
  return rules.approveAll && !isSourceNode(fleet.readTable, node) ? wellCeiling(fleet) : undefined;
}
