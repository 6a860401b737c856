/** A gauge that fell to nothing from one reading to the next while the tank was full of water: unplugged, or its wire broke. */
import { speaksForPressure } from './company.ts';
import { usesPressure } from './facts.ts';
import { fellAtOnce } from './fell-at-once.ts';
import { sayLitres, sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

/** So long to its last digit: water that is used or pumped moves a gauge by then. */
const FLAT_S = 180;

export function fallenFault(scene: Scene): Finding | undefined {
  if (!speaksForPressure(scene) || !usesPressure(scene.pump)) return undefined;
  const fall = fellAtOnce(scene);
  if (!fall) return undefined;
  const flatS = (scene.atMs - fall.sinceMs) / 1000;
  if (flatS < FLAT_S) return undefined;
  return {
    sinceMs: fall.sinceMs,
    why: `The gauge fell from ${sayPressure(fall.fromKpa)} to ${sayPressure(fall.toKpa)} within ${sayTime(fall.stepS)} and has read the same to the last digit since: the ${sayLitres(fall.heldL)} in the tank do not leave so fast.`,
    evidence: {
      fromKpa: tidy(fall.fromKpa, 0),
      kpa: tidy(fall.toKpa, 1),
      withinS: tidy(fall.stepS, 0),
      heldL: tidy(fall.heldL, 0),
    },
    // What feeds the gauge may have gone out with the pump's power; a pump that has run since had its own.
    causes: weigh({
      'transducer-fault': 0.85,
      'power-lost': fall.ranSince ? 0 : 0.08,
      'broken-pipe': fall.ranSince ? 0 : 0.05,
    }),
  };
}
