/**
 * What is known of the tank's air charge, for the two watches that judge it: as hydraulics reads it from fills, against the card's; and, by
 * the clock alone, how much shorter the shortest fills have become while the pressure band stayed. Drawdown goes with absolute
 * pressure, so shares are of absolute charge.
 */
import { median, quantile } from '../../baseline/robust.ts';
import { minFillS } from '../../baseline/min-fill-time.ts';
import { atmosphericKpa } from '../../../../shared/units/altitude.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  normalFillS,
  recentCycles,
  hasPressureCycle,
  memoryList,
} from '../scene-queries.ts';
import { roundTo } from '../format.ts';
import type { WatchMemory, Scene } from '../scene.ts';
import { areFillsUsable } from '../pump/usable-fill.ts';

const RUNS = 12;
const FILL_RUNS = 12;
/** A band narrower than it was makes fills short by itself; a wider one does not. */
const MIN_BAND_RATIO = 0.87;

export interface MeasuredAir {
  /** Gauge, median of the last runs. */
  prechargeKpa: number;
  normalPrechargeKpa: number;
  /** Of the charge that should be there, absolute. */
  ratio: number;
}

/** The air charge over the last runs, kept in the memo; undefined where hydraulics cannot tell it or too few runs did. */
export function measureAir(scene: Scene, memo: WatchMemory): MeasuredAir | undefined {
  const { prechargeKpa, normalPrechargeKpa } = scene.well.water;
  if (prechargeKpa === undefined || normalPrechargeKpa === undefined || !hasPressureCycle(scene.pump))
    return undefined;
  if (!areFillsUsable(scene)) return undefined;
  const recentKpa = [...memoryList(memo, 'air'), roundTo(prechargeKpa, 0)].slice(-RUNS);
  memo['air'] = recentKpa;
  if (recentKpa.length < RUNS) return undefined;
  const atmosphere = atmosphericKpa(Math.min(scene.well.card.altitudeM, 10_000));
  const middle = median(recentKpa)!;
  return {
    prechargeKpa: middle,
    normalPrechargeKpa: normalPrechargeKpa,
    ratio: (middle + atmosphere) / (normalPrechargeKpa + atmosphere),
  };
}

export interface MeasuredFills {
  fillS: number;
  normalS: number;
  /** Else it is reckoned from the card. */
  learned: boolean;
  ratio: number;
  sinceMs: number;
}

/**
 * The fills of the last runs against the shortest as first learnt; where nothing was learnt, against the least time that this pump
 * could fill the card's tank in. Undefined where there are too few, or the pressure band is narrower: then the switch explains it.
 */
export function measureFills(scene: Scene): MeasuredFills | undefined {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  const cycles = recentCycles(scene, FILL_RUNS);
  if (!hasPressureCycle(scene.pump) || cycles.length < FILL_RUNS || !areFillsUsable(scene)) return undefined;
  if (cutIn === undefined || cutOut === undefined) return undefined;
  const bands = cycles.flatMap((c) =>
    c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
  );
  const band = median(bands);
  if (band === undefined || band < MIN_BAND_RATIO * (cutOut - cutIn)) return undefined;
  // The shortest learnt is compared with the shortest now.
  const fillS = quantile(
    cycles.map((cycle) => cycle.ranS),
    scene.pump.card.control === 'constant-pressure-valve' ? 0.25 : 0.5,
  )!;
  const learnedS = normalFillS(scene);
  const referenceS =
    learnedS ?? minFillS(scene.well.card, scene.pump.card, { cutInKpa: cutIn, cutOutKpa: cutOut });
  if (referenceS === undefined || referenceS <= 0) return undefined;
  // A narrower band takes less water, whatever the air.
  const normalS = referenceS * Math.min(1, band / (cutOut - cutIn));
  return {
    fillS,
    normalS,
    learned: learnedS !== undefined,
    ratio: fillS / normalS,
    sinceMs: cycles[0]!.startedMs,
  };
}
