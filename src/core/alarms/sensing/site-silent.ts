/**
 * Half of a site's nodes, two or more, fell silent within 5 minutes: one link or one supply is more likely than so many boxes. Decided
 * outside the well, which sees only its own nodes; here are its words and its weighing.
 */
import type { Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Finding } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

export function siteSilentFinding(silent: {
  sinceMs: number;
  nodes: string[];
  nodeCount: number;
  priority: Priority;
}): Finding {
  const { nodes, nodeCount } = silent;
  return {
    sinceMs: silent.sinceMs,
    priority: silent.priority,
    why: `${nodes.length} of the ${nodeCount} nodes of this site fell silent within 5 min: its link or its power, rather than each of them.`,
    evidence: { silent: nodes.length, of: nodeCount, nodes: nodes.join(' ') },
    causes: weighCauses({ 'node-offline': 0.5, 'power-lost': 0.5 }),
  };
}
