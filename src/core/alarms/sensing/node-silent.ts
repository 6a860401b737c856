/**
 * Nothing is heard of a node for longer than it ever is. When that is, is judged by arrival (src/core/readings/ and src/server/); here it is
 * said, and how urgent it is: a node on the pump's own circuit dies with it, and stock depends on water that nobody now watches.
 */
import { formatDuration } from '../format.ts';
import type { Finding, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

export const nodeSilent: Watch = {
  alarm: 'node-silent',
  scope: 'node',
  triggers: ['minute'],
  onDelayS: 0,
  offDelayS: 0,
  evaluate,
};

function evaluate(scene: Scene): Finding | null {
  const { node } = scene;
  // With half of its site silent too, one alarm of the site stands for all.
  if (!node || node.is !== 'silent' || node.evidence?.['withSite'] !== undefined) return null;
  const samePump = node.evidence?.['fedFrom'] === 'pump-circuit';
  const forS = Math.max(0, (scene.atMs - node.sinceMs) / 1000);
  const why = `Nothing has been heard of ${node.node} for ${formatDuration(forS)}`;
  return {
    sinceMs: node.sinceMs,
    priority: samePump || scene.well.card.uses.includes('stock') ? 'now' : 'soon',
    why: samePump
      ? `${why}; it is fed from the pump's circuit, so the pump may be dead too.`
      : `${why}: this well is not watched meanwhile.`,
    evidence: { ...node.evidence, node: node.node, silentS: Math.round(forS) },
    causes: samePump
      ? weighCauses({ 'power-lost': 0.4, 'breaker-open': 0.4, 'node-offline': 0.2 })
      : weighCauses({ 'node-offline': 0.7, 'power-lost': 0.3 }),
  };
}
