/**
 * Half of a site's nodes, two or more, fell silent within 5 minutes: one link or one supply is more
 * likely than so many boxes. Decided outside the well, which sees only its own nodes; here are its
 * reason and its causes.
 */
import type { Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Active } from '../evaluation.ts';
import { weighCauses } from '../weigh-causes.ts';

export function siteSilentEvaluation(silent: {
  sinceMs: number;
  nodes: string[];
  nodeCount: number;
  priority: Priority;
}): Active {
  const { nodes, nodeCount } = silent;
  return {
    is: 'active',
    sinceMs: silent.sinceMs,
    priority: silent.priority,
    reason: 'site-nodes-silent',
    figures: { silentNodes: nodes.length, nodeCount },
    evidence: { silent: nodes.length, of: nodeCount, nodes: nodes.join(' ') },
    causes: weighCauses({ 'node-offline': 0.5, 'power-lost': 0.5 }),
  };
}
