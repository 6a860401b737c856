/**
 * How many nodes and wells one server takes: a node with a slip in its program, or a stolen
 * credential, must not fill memory and disk with names. What is known already is never dropped for
 * it, also where an older version took more.
 */
import type { CeilingReached } from '../../../shared/text/en/refusals/ceiling.ts';
import { isSourceNode } from '../domain/sources.ts';
import type { Fleet } from './fleet.ts';

/** Most nodes and wells. */
export interface Ceiling {
  nodes: number;
  wells: number;
}

/** Why no well can be added; undefined where one can. */
export function wellCeiling({ pipelines, rules }: Fleet): CeilingReached | undefined {
  const max = rules.ceiling.wells;
  const known = pipelines.size;
  return known < max ? undefined : { of: 'wells', max, known };
}

/** Why this node cannot be added, with the well that it would be of its own. */
export function nodeCeiling(fleet: Fleet, node: string): CeilingReached | undefined {
  const { nodes, rules } = fleet;
  const max = rules.ceiling.nodes;
  if (nodes.size >= max) return { of: 'nodes', max, known: nodes.size };
  return rules.approveAll && !isSourceNode(fleet.readTable, node) ? wellCeiling(fleet) : undefined;
}
