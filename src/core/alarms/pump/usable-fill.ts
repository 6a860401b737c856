/**
 * Is a fill here long enough to be read? One of a few seconds, behind a tank of a gallon or two, is
 * mostly the pump's own start and the swing of the water, and what people draw meanwhile is most of
 * the rest: neither a charge nor a rate is read from it. What counts is the usual fill, as learnt,
 * else as the card's tank makes it: use lengthens a run and makes no fill of it, and lost air
 * shortens one that told.
 */
import { minFillS } from '../../baseline/min-fill-time.ts';
import { quantile } from '../../baseline/robust.ts';
import { normalCutInKpa, normalCutOutKpa, normalFillS, isCompleteRun } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/**
 * The start takes a second or two and the swing some five more (common practice, no source): under
 * half of this.
 */
const MIN_USABLE_FILL_S = 15;

/** Can a fill of so many seconds be read? */
export function isUsableFill(fillS: number): boolean {
  return fillS >= MIN_USABLE_FILL_S;
}

/** Are this well's fills such? Where nothing says how long they are, they are taken to be. */
export function areFillsUsable(scene: Scene): boolean {
  const fillS = normalFillS(scene) ?? calculatedFillS(scene) ?? lowerQuartileRunS(scene);
  return fillS === undefined || isUsableFill(fillS);
}

function calculatedFillS(scene: Scene): number | undefined {
  const cutInKpa = normalCutInKpa(scene);
  const cutOutKpa = normalCutOutKpa(scene);
  if (cutInKpa === undefined || cutOutKpa === undefined) return undefined;
  return minFillS(scene.well.card, scene.pump.card, { cutInKpa, cutOutKpa });
}

/** The lower quartile of the last runs: use only lengthens them. */
function lowerQuartileRunS(scene: Scene): number | undefined {
  return quantile(
    scene.pump.cycles.filter(isCompleteRun).map(({ ranS }) => ranS),
    0.25,
  );
}
