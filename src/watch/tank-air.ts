/**
 * What is known of the tank's air charge, for the two watches that judge it: as hydraulics reads it from fills, against the card's; and, by
 * the clock alone, how much shorter the shortest fills have become while the pressure band stayed. Drawdown goes with absolute
 * pressure, so shares are of absolute charge.
 */
import { median, quantile } from '../baseline/robust.ts';
import { leastFillS } from '../baseline/least-fill.ts';
import { atmosphericKpa } from '../../shared/units/altitude.ts';
import { cutInOf, cutOutOf, fillOf, freshCycles, hasPressureCycle, listOf } from './facts.ts';
import { tidy } from './say.ts';
import type { Memo, Scene } from './scene.ts';
import { fillsTell } from './telling-fill.ts';

const RUNS = 12;
const FILL_RUNS = 12;
/** A band narrower than it was makes fills short by itself; a wider one does not. */
const BAND_LEFT = 0.87;

export interface AirSeen {
  /** Gauge, median of the last runs. */
  airKpa: number;
  normalKpa: number;
  /** Of the charge that should be there, absolute. */
  share: number;
}

/** The air charge over the last runs, kept in the memo; undefined where hydraulics cannot tell it or too few runs did. */
export function airSeen(scene: Scene, memo: Memo): AirSeen | undefined {
  const { airKpa, airNormalKpa } = scene.well.water;
  if (airKpa === undefined || airNormalKpa === undefined || !hasPressureCycle(scene.pump)) return undefined;
  if (!fillsTell(scene)) return undefined;
  const kept = [...listOf(memo, 'air'), tidy(airKpa, 0)].slice(-RUNS);
  memo['air'] = kept;
  if (kept.length < RUNS) return undefined;
  const atmosphere = atmosphericKpa(Math.min(scene.well.card.altitudeM, 10_000));
  const middle = median(kept)!;
  return {
    airKpa: middle,
    normalKpa: airNormalKpa,
    share: (middle + atmosphere) / (airNormalKpa + atmosphere),
  };
}

export interface FillsSeen {
  fillS: number;
  normalS: number;
  /** Else it is reckoned from the card. */
  learnt: boolean;
  share: number;
  sinceMs: number;
}

/**
 * The fills of the last runs against the shortest as first learnt; where nothing was learnt, against the least time that this pump
 * could fill the card's tank in. Undefined where there are too few, or the pressure band is narrower: then the switch explains it.
 */
export function fillsSeen(scene: Scene): FillsSeen | undefined {
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  const cycles = freshCycles(scene, FILL_RUNS);
  if (!hasPressureCycle(scene.pump) || cycles.length < FILL_RUNS || !fillsTell(scene)) return undefined;
  if (cutIn === undefined || cutOut === undefined) return undefined;
  const bands = cycles.flatMap((c) =>
    c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
  );
  const band = median(bands);
  if (band === undefined || band < BAND_LEFT * (cutOut - cutIn)) return undefined;
  // The shortest learnt is compared with the shortest now.
  const fillS = quantile(
    cycles.map((cycle) => cycle.ranS),
    scene.pump.card.control === 'constant-pressure-valve' ? 0.25 : 0.5,
  )!;
  const learnt = fillOf(scene);
  const usualS =
    learnt ?? leastFillS(scene.well.card, scene.pump.card, { cutInKpa: cutIn, cutOutKpa: cutOut });
  if (usualS === undefined || usualS <= 0) return undefined;
  // A narrower band takes less water, whatever the air.
  const normalS = usualS * Math.min(1, band / (cutOut - cutIn));
  return {
    fillS,
    normalS,
    learnt: learnt !== undefined,
    share: fillS / normalS,
    sinceMs: cycles[0]!.startedMs,
  };
}
