/**
 * What is known of the tank's air charge, for the two watches that judge it: as hydraulics reads it from fills, against the card's; and, by
 * the clock alone, how much shorter the shortest fills have become while the pressure band stayed. Drawdown goes with absolute
 * pressure, so shares are of absolute charge.
 */
import { median, quantile } from '../baseline/robust.ts';
import { atmosphericKpa } from '../../shared/units/altitude.ts';
import { cutInOf, cutOutOf, freshCycles, hasPressureCycle, listOf } from './facts.ts';
import { tidy } from './say.ts';
import type { Memo, Scene } from './scene.ts';

const RUNS = 12;
const FILL_RUNS = 12;
const BAND_SHARE = 0.15;

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
  share: number;
  sinceMs: number;
}

/**
 * The shortest fills of the last runs against the shortest as first learnt. Undefined where there are too few, or the pressure band
 * has changed: then the switch explains it.
 */
export function fillsSeen(scene: Scene): FillsSeen | undefined {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  const cycles = freshCycles(scene, FILL_RUNS);
  if (!hasPressureCycle(scene.pump) || !normal || normal.median <= 0 || cycles.length < FILL_RUNS)
    return undefined;
  if (cutIn === undefined || cutOut === undefined) return undefined;
  const bands = cycles.flatMap((c) =>
    c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
  );
  const band = median(bands);
  if (band === undefined || Math.abs(band / (cutOut - cutIn) - 1) > BAND_SHARE) return undefined;
  const fillS = quantile(
    cycles.map((cycle) => cycle.ranS),
    0.5,
  )!;
  return { fillS, normalS: normal.median, share: fillS / normal.median, sinceMs: cycles[0]!.startedMs };
}
