/**
 * Nothing is heard of a node for longer than it ever is. When that is, is judged by arrival
 * (src/core/readings/ and src/server/); here it is said, and how urgent it is: a node on the pump's
 * own circuit dies with it, and stock depends on water that nobody now watches.
 */
import { CLEAR, type Evaluation } from '../evaluation.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

export const nodeSilent: Watch = {
  alarm: 'node-silent',
  scope: 'node',
  triggers: ['minute'],
  evaluate,
};

function evaluate(scene: Scene): Evaluation {
  const { node } = scene;
  // With half of its site silent too, one alarm of the site stands for all.
  if (!node || node.is !== 'silent' || node.evidence?.['withSite'] !== undefined) return CLEAR;
  const samePump = node.evidence?.['fedFrom'] === 'pump-circuit';
  const forS = Math.max(0, (scene.atMs - node.sinceMs) / 1000);
  return {
    is: 'active',
    sinceMs: node.sinceMs,
    priority: samePump || scene.well.card.uses.includes('stock') ? 'now' : 'soon',
    reason: samePump ? 'node-on-pump-circuit-silent' : 'node-silent',
    figures: { node: node.node, silentS: forS },
    evidence: { ...node.evidence, node: node.node, silentS: Math.round(forS) },
    causes: samePump
      ? weighCauses({ 'power-lost': 0.4, 'breaker-open': 0.4, 'node-offline': 0.2 })
      : weighCauses({ 'node-offline': 0.7, 'power-lost': 0.3 }),
  };
}
