/**
 * Did the tank fill in these short runs? While a tank that lost its air is crossed from cut-in to
 * cut-out by every run, pressure at the tank stands in mid-band over a minute, however quick that
 * goes. Contacts that flutter stop the pump after a second or three: between the leaps that the
 * starting water makes at the tee, pressure stays where it was, near cut-in.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { isAfterReset, normalCutInKpa, normalCutOutKpa } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/**
 * Mean of the pressure over the whole minutes since then, as a share of the band over cut-in;
 * undefined where no pressure was heard.
 */
export function meanBandLevel(scene: Scene, sinceMs: number): number | undefined {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (cutIn === undefined || cutOut === undefined || cutOut <= cutIn) return undefined;
  let sum = 0;
  let n = 0;
  for (const { atMs, kpa } of scene.well.minutes) {
    if (atMs - MINUTE_MS < sinceMs || !kpa || !isAfterReset(scene, atMs - MINUTE_MS)) continue;
    sum += kpa.mean;
    n++;
  }
  return n === 0 ? undefined : (sum / n - cutIn) / (cutOut - cutIn);
}
