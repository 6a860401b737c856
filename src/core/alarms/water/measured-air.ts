/**
 * What is known of the tank's air charge, for the two watches that judge it: as hydraulics reads it
 * from fills, against the card's; and, by the clock alone, how much shorter the shortest fills have
 * become while the pressure band stayed. Drawdown goes with absolute pressure, so shares are of
 * absolute charge.
 */
import { median, quantile } from '../../baseline/robust.ts';
import { minFillS } from '../../baseline/min-fill-time.ts';
import { atmosphericKpa } from '../../../../shared/units/altitude.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { cannotTell, type CannotTell } from '../evaluation.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  normalFillS,
  recentCycles,
  hasPressureCycle,
  isCompleteRun,
  KPA_PER_PSI,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { areFillsUsable } from '../pump/usable-fill.ts';

/** The median of a dozen runs: half a day to a day of a house (argued, not measured). */
const RUNS = 12;
const FILL_RUNS = 12;
/**
 * A run shorter than this share of a fill, and than so many seconds, never got going: contacts that
 * flutter, a motor that did not come up. What air a tank keeps when it is full of water gives it
 * more, and its air is gone in days, not between two runs.
 */
const NO_FILL_RATIO = 0.15;
const NO_FILL_S = 10;
/** Ends that fell short by more than 2 psi and what pressure moves in two readings. */
const SHORT_KPA = 2 * KPA_PER_PSI;
const UNSEEN_READINGS = 2;
/** A band narrower than it was makes fills short by itself; a wider one does not. */
const MIN_BAND_RATIO = 0.87;

/** What both watches of the tank remember. */
export interface AirMemory {
  /** The air charge over the last runs, kPa gauge. */
  air: number[];
}

export interface MeasuredAir {
  is: 'measured';
  /** Gauge, median of the last runs. */
  prechargeKpa: number;
  normalPrechargeKpa: number;
  /** Of the charge that should be there, absolute. */
  ratio: number;
}

/** The air charge over the last runs, kept in the memory. */
export function measureAir(scene: Scene, memory: AirMemory): MeasuredAir | CannotTell {
  const { prechargeKpa, normalPrechargeKpa } = scene.well.water;
  if (!hasPressureCycle(scene.pump)) return cannotTell('not-this-control');
  if (normalPrechargeKpa === undefined) return cannotTell('needs-card-tank');
  if (prechargeKpa === undefined)
    return cannotTell(scene.cycle?.cutInKpa === undefined ? 'needs-pressure' : 'learning');
  if (!areFillsUsable(scene)) return cannotTell('fills-too-short');
  const recentKpa = [...memory.air, roundTo(prechargeKpa, 0)].slice(-RUNS);
  memory.air = recentKpa;
  if (recentKpa.length < RUNS) return cannotTell('too-few-runs');
  const atmosphere = atmosphericKpa(Math.min(scene.well.card.altitudeM, 10_000));
  const middle = median(recentKpa)!;
  return {
    is: 'measured',
    prechargeKpa: middle,
    normalPrechargeKpa,
    ratio: (middle + atmosphere) / (normalPrechargeKpa + atmosphere),
  };
}

/** Only a run that was ended by a full tank says how long that takes. */
function isFillOfTank(scene: Scene, cycle: Cycle, cutOut: number | undefined): boolean {
  const { ranS, cutInKpa, cutOutKpa, readings } = cycle;
  if (ranS < Math.min(NO_FILL_S, NO_FILL_RATIO * (normalFillS(scene) ?? 0))) return false;
  if (cutOut === undefined || cutInKpa === undefined || cutOutKpa === undefined) return true;
  const stepKpa = Math.abs(cutOutKpa - cutInKpa) / Math.max(1, readings);
  return cutOutKpa > cutOut - SHORT_KPA - UNSEEN_READINGS * stepKpa;
}

export interface MeasuredFills {
  is: 'measured';
  fillS: number;
  normalS: number;
  /** Else it is reckoned from the card. */
  learned: boolean;
  ratio: number;
  sinceMs: number;
}

/**
 * The fills of the last runs against the shortest as first learnt; where nothing was learnt,
 * against the least time that this pump could fill the card's tank in. It cannot tell if there are
 * too few, or if the pressure band is narrower: then the switch explains it.
 */
export function measureFills(scene: Scene): MeasuredFills | CannotTell {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  const cycles = recentCycles(
    scene,
    FILL_RUNS,
    (cycle) => isCompleteRun(cycle) && isFillOfTank(scene, cycle, cutOut),
  );
  if (!hasPressureCycle(scene.pump)) return cannotTell('not-this-control');
  if (cycles.length < FILL_RUNS) return cannotTell('too-few-runs');
  if (!areFillsUsable(scene)) return cannotTell('fills-too-short');
  if (cutIn === undefined || cutOut === undefined) return cannotTell('needs-card-switch');
  const bands = cycles.flatMap((c) =>
    c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
  );
  const band = median(bands);
  if (band === undefined) return cannotTell('needs-pressure');
  if (band < MIN_BAND_RATIO * (cutOut - cutIn)) return cannotTell('other-alarm-explains');
  // The shortest learnt is compared with the shortest now.
  const fillS = quantile(
    cycles.map((cycle) => cycle.ranS),
    scene.pump.card.control === 'constant-pressure-valve' ? 0.25 : 0.5,
  )!;
  const learnedS = normalFillS(scene);
  const referenceS =
    learnedS ?? minFillS(scene.well.card, scene.pump.card, { cutInKpa: cutIn, cutOutKpa: cutOut });
  if (referenceS === undefined || referenceS <= 0) return cannotTell('learning');
  // A narrower band takes less water, whatever the air.
  const normalS = referenceS * Math.min(1, band / (cutOut - cutIn));
  return {
    is: 'measured',
    fillS,
    normalS,
    learned: learnedS !== undefined,
    ratio: fillS / normalS,
    sinceMs: cycles[0]!.startedMs,
  };
}
