/**
 * Two boxes speak under one name (contract, section 2): both are kept, and none can be trusted to
 * be the well's own.
 */
import { CLEAR, type Evaluation } from '../evaluation.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

export const nodeConflict: Watch = {
  alarm: 'node-conflict',
  scope: 'node',
  triggers: ['minute'],
  evaluate,
};

function evaluate(scene: Scene): Evaluation {
  const { node } = scene;
  if (!node || node.is !== 'conflict') return CLEAR;
  return {
    is: 'active',
    sinceMs: node.sinceMs,
    reason: 'two-nodes-one-name',
    figures: { node: node.node },
    evidence: { ...node.evidence, node: node.node },
    causes: weighCauses({ 'node-offline': 0.6, serviced: 0.4 }),
  };
}
