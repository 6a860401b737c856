/**
 * A gauge that fell to nothing from one reading to the next while the tank was full of water:
 * unplugged, or its wire broke.
 */
import { reportsPressure } from '../pump-peers.ts';
import { usesPressure } from '../scene-queries.ts';
import { detectGaugeDrop } from './gauge-drop.ts';
import type { Active } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** So long to its last digit: water that is used or pumped moves a gauge by then. */
const MIN_FLAT_S = 180;

export function gaugeDropFault(scene: Scene): Active | undefined {
  if (!reportsPressure(scene) || !usesPressure(scene.pump)) return undefined;
  const drop = detectGaugeDrop(scene);
  if (!drop) return undefined;
  const flatS = (scene.atMs - drop.sinceMs) / 1000;
  if (flatS < MIN_FLAT_S) return undefined;
  return {
    is: 'active',
    sinceMs: drop.sinceMs,
    reason: 'pressure-dropped-with-full-tank',
    figures: { fromKpa: drop.fromKpa, toKpa: drop.toKpa, withinS: drop.stepS, tankL: drop.waterL },
    evidence: {
      fromKpa: roundTo(drop.fromKpa, 0),
      kpa: roundTo(drop.toKpa, 1),
      withinS: roundTo(drop.stepS, 0),
      heldL: roundTo(drop.waterL, 0),
    },
    // What feeds the gauge may have gone out with the pump's power; a pump that has run since had
    // its own.
    causes: weighCauses({
      'transducer-fault': 0.85,
      'power-lost': drop.ranSince ? 0 : 0.08,
      'broken-pipe': drop.ranSince ? 0 : 0.05,
    }),
  };
}
