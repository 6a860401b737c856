/**
 * Delivery has fallen from its baseline at the same pressure. What hydraulics reads from the fills
 * decides; where it cannot, the shortest fills do: use only lengthens runs, so the shortest of
 * forty that take a third longer than the shortest ever did mean that less water comes. A tank that
 * takes more air or a wider band would look the same, so the band must be as it was; and what the
 * pressures explain that the fills are read at is taken off first.
 */
import { DAY_MS, HOUR_MS } from '../../../../shared/units/duration.ts';
import { median, quantile } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { changePoint } from '../charts/change-point.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  recentCycles,
  normalAmpsOf,
  dutyFraction,
  hasRareRuns,
  usesPressure,
} from '../scene-queries.ts';
import { comparableFills, quickestFill } from './fill-times.ts';
import { levelFall, type LevelMemory } from './level-fall.ts';
import { expectedDeliveryRatio } from './pressure-shift.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { areFillsUsable } from './usable-fill.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Shares of the delivery as learnt: one in eight lost, in the median of so many runs, for days. */
const LOW_RATIO = 0.88;
const CLEAR_RATIO = 0.96;
const RUNS = 8;
/**
 * A day and a half, so that it holds through a night; longer where a generator may stand in for the
 * grid, which takes a fifth of the delivery and current with it.
 */
const MIN_LOW_MS = 36 * HOUR_MS;
const MIN_GENERATOR_MS = 72 * HOUR_MS;
const MAX_GENERATOR_LOSS = 0.2;
/**
 * Less current goes with less water where impellers are worn. Within this of its usual current it
 * is rings, a hole in the drop pipe, or heavy use that looks like a slow fill. Use does not
 * lengthen every fill for days: where the quickest fills take longer too, or water falls back at
 * rest as it does through a hole, less comes. Else only what is under the last share is told: fills
 * are taken under draws of up to 0.4 of the delivery (src/core/hydraulics/delivery.ts), so that use
 * alone can make 0.6 of it.
 */
const AMPS_TOLERANCE = 0.015;
const LOW_RATIO_SAME_AMPS = 0.84;
const LOW_RATIO_IN_USE = 0.6;
const QUICKEST_RUNS = 16;
const MIN_QUICKEST_RUNS = 8;
const MIN_QUICKEST_RATIO = 1.08;
/**
 * Far gone: so many fills in a row, over a day and a night, each take half as long again as the
 * shortest did. A pump in that state may not last the days that less needs to be sure.
 */
const FAR_GONE_RUNS = 8;
const FAR_GONE_RATIO = 1.5;
const MAX_FAR_GONE_DELIVERY = 0.8;
/** L/h: a dripping tap is less than falls back through a hole that matters. */
const MIN_BACKFLOW_L_PER_H = 3;
/** By run time alone. */
const SLOW_RUNS = 30;
const MIN_SLOW_RATIO = 1.35;
const BAND_TOLERANCE = 0.1;
/** A store: the quickest of so many fills, against the lower quartile as learnt. */
const STORE_RUNS = 8;
const MIN_STORE_RATIO = 1.6;
/**
 * What is drawn while a store fills is the pump's own share of the day in the mean, and five times
 * that where a herd comes to drink (argued, not measured). Where that hardly lengthens a fill, as
 * where one fill serves for days, less is asked, of fewer fills.
 */
const PEAK_DRAW = 5;
const MIN_RARE_RATIO = 1.25;
const RARE_STORE_RUNS = 3;

interface SlowFillMemory extends LevelMemory {
  /** Delivery in the last runs against the normal, and since when its median has been low. */
  shares?: number[];
  lowSinceMs?: number;
}

export const slowFill: Watch<SlowFillMemory> = {
  alarm: 'slow-fill',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: SlowFillMemory): Evaluation {
  const levelFallM = levelFall(scene, memory);
  if (!scene.pump.baseline) return cannotTell('learning');
  if (!usesPressure(scene.pump)) return evaluateStore(scene);
  const ratio = scene.well.water.deliveryRatio;
  const found =
    ratio === undefined
      ? evaluateRunTime(scene)
      : areFillsUsable(scene)
        ? evaluateDelivery(scene, memory, ratio)
        : cannotTell('fills-too-short');
  return found.is === 'active' && levelFallM !== undefined
    ? { ...found, evidence: { ...found.evidence, levelFallM } }
    : found;
}

function evaluateDelivery(scene: Scene, memory: SlowFillMemory, ratio: number): Evaluation {
  const recentRatios = [...(memory.shares ?? []), roundTo(ratio, 3)].slice(-RUNS);
  memory.shares = recentRatios;
  if (recentRatios.length < RUNS) return cannotTell('too-few-runs');
  if (mayBeDrawn(scene)) return cannotTell('run-not-comparable');
  const middle = quantile(recentRatios, 0.5)!;
  const farGoneMs = farGoneSinceMs(scene, ratio);
  if (farGoneMs !== undefined) return deliveryFinding(scene, Math.min(middle, ratio), farGoneMs);
  if (middle >= CLEAR_RATIO) {
    delete memory.lowSinceMs;
    return CLEAR;
  }
  const ampsRatio = recentAmpsRatio(scene);
  if (middle >= lowRatioLimit(scene, ampsRatio) * expectedDeliveryRatio(scene)) {
    delete memory.lowSinceMs;
    return cannotTell('near-limit');
  }
  memory.lowSinceMs ??= scene.atMs;
  const mayBeGenerator = middle > 1 - MAX_GENERATOR_LOSS && (ampsRatio ?? 0) < 1 - AMPS_TOLERANCE;
  if (scene.atMs - memory.lowSinceMs < (mayBeGenerator ? MIN_GENERATOR_MS : MIN_LOW_MS))
    return cannotTell('not-long-enough');
  return deliveryFinding(scene, middle, memory.lowSinceMs);
}

/**
 * A heat pump draws through nearly every fill of a cold week: what a fill lacks went there, unless
 * current says that the pump lifts less.
 */
function mayBeDrawn(scene: Scene): boolean {
  return scene.well.card.uses.includes('heat-pump') && (recentAmpsRatio(scene) ?? 1) > 1 - AMPS_TOLERANCE;
}

function deliveryFinding(scene: Scene, middle: number, sinceMs: number): Active {
  return {
    is: 'active',
    sinceMs,
    reason: 'delivery-down',
    figures: { lossRatio: 1 - middle },
    evidence: { deliveryShare: roundTo(middle), runs: RUNS },
    causes: causesOf(scene, 1 / middle),
  };
}

/** Since when every fill has taken half as long again; undefined where one did not. */
function farGoneSinceMs(scene: Scene, ratio: number): number | undefined {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const fills = comparableFills(scene, FAR_GONE_RUNS);
  const first = fills[0];
  if (!normal || !first || fills.length < FAR_GONE_RUNS || ratio > MAX_FAR_GONE_DELIVERY) return undefined;
  if (fills.some((fill) => fill.ranS < FAR_GONE_RATIO * normal.median)) return undefined;
  return scene.atMs - first.startedMs >= DAY_MS ? first.startedMs : undefined;
}

/** Current of the last runs against the usual. */
function recentAmpsRatio(scene: Scene): number | undefined {
  const usual = normalAmpsOf(scene);
  const amps = median(recentCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  return usual === undefined || amps === undefined ? undefined : amps / usual;
}

function lowRatioLimit(scene: Scene, ampsRatio: number | undefined): number {
  if (ampsRatio === undefined || Math.abs(ampsRatio - 1) >= AMPS_TOLERANCE) return LOW_RATIO;
  if (areQuickestFillsSlow(scene)) return LOW_RATIO;
  return flowsBack(scene) ? LOW_RATIO_SAME_AMPS : LOW_RATIO_IN_USE;
}

function areQuickestFillsSlow(scene: Scene): boolean {
  const fills = comparableFills(scene, QUICKEST_RUNS);
  const quickest = quickestFill(scene, fills);
  return (
    fills.length >= MIN_QUICKEST_RUNS &&
    quickest !== undefined &&
    quickest.ratio > MIN_QUICKEST_RATIO + quickest.error
  );
}

function flowsBack(scene: Scene): boolean {
  const { dayLoss, continuousLoss } = scene.well.water;
  return Math.max(dayLoss?.lPerH ?? 0, continuousLoss?.lPerH ?? 0) > MIN_BACKFLOW_L_PER_H;
}

function evaluateRunTime(scene: Scene): Evaluation {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const cycles = recentCycles(scene, SLOW_RUNS);
  if (!normal || normal.median <= 0) return cannotTell('learning');
  if (cycles.length < SLOW_RUNS) return cannotTell('too-few-runs');
  if (scene.cycle?.cutInKpa === undefined) return cannotTell('needs-pressure');
  if (!isBandUnchanged(scene)) return cannotTell('other-alarm-explains');
  const quickest = (runs: readonly Cycle[]): number =>
    quantile(
      runs.map((cycle) => cycle.ranS),
      0.15,
    )!;
  const limit = Math.max(MIN_SLOW_RATIO, 1 + (4 * normal.spread) / normal.median);
  const ratio = quickest(cycles) / normal.median;
  if (ratio < 1 + 0.7 * (limit - 1)) return CLEAR;
  if (ratio < limit) return cannotTell('near-limit');
  // One in seven may be of before: it began with the first slow one.
  const from = changePoint(
    cycles.map((cycle) => cycle.ranS / normal.median - 1),
    limit - 1,
  );
  const slow = cycles.slice(Math.min(from, cycles.length - 1));
  const low = quickest(slow);
  const times = low / normal.median;
  return {
    is: 'active',
    sinceMs: slow[0]!.startedMs,
    reason: 'fills-slow',
    figures: { fillS: low, normalS: normal.median },
    evidence: { fillS: roundTo(low, 1), normalS: roundTo(normal.median, 1), times: roundTo(times) },
    causes: causesOf(scene, times),
  };
}

/**
 * A float fills the same store each time, and what is drunk meanwhile only lengthens a fill: when
 * even the quickest of eight takes so much longer, less comes. A hot week with the herd at the
 * trough is allowed for.
 */
function evaluateStore(scene: Scene): Evaluation {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const rare = hasRareRuns(scene.pump);
  const runs = rare ? RARE_STORE_RUNS : STORE_RUNS;
  const cycles = recentCycles(scene, runs);
  if (!normal || normal.median <= 0) return cannotTell('learning');
  if (cycles.length < runs) return cannotTell('too-few-runs');
  const minRanS = Math.min(...cycles.map((cycle) => cycle.ranS));
  const times = minRanS / normal.median;
  const minRatio = rare ? rareStoreRatio(scene) : MIN_STORE_RATIO;
  const limit = Math.max(minRatio, 1 + (4 * normal.spread) / normal.median);
  if (times < 1 + 0.7 * (limit - 1)) return CLEAR;
  if (times < limit) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: cycles[0]!.startedMs,
    reason: 'store-fills-slow',
    figures: { runs, fillS: minRanS, normalS: normal.median },
    evidence: { fillS: roundTo(minRanS, 1), normalS: roundTo(normal.median, 1), times: roundTo(times) },
    causes: weighCauses({
      'worn-pump': 0.3,
      'low-well': 0.2,
      leak: 0.2,
      'drop-pipe-leak': 0.1,
      'habit-changed': 0.2,
    }),
  };
}

function rareStoreRatio(scene: Scene): number {
  const drawn = PEAK_DRAW * (dutyFraction(scene.pump) ?? 1);
  return Math.min(MIN_STORE_RATIO, Math.max(MIN_RARE_RATIO, 1 / Math.max(0.1, 1 - drawn)));
}

function isBandUnchanged(scene: Scene): boolean {
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  const last = scene.cycle;
  if (
    cutIn === undefined ||
    cutOut === undefined ||
    last?.cutInKpa === undefined ||
    last.cutOutKpa === undefined
  )
    return false;
  return Math.abs((last.cutOutKpa - last.cutInKpa) / (cutOut - cutIn) - 1) < BAND_TOLERANCE;
}

/**
 * A slow rise at the start of each run is the pipe filling first: what came up went down again. A
 * higher lift and worn impellers take current away with the water; worn rings and a hole above the
 * pump do not.
 */
function causesOf(scene: Scene, times: number): Active['causes'] {
  const amps = scene.cycle?.amps;
  const usual = scene.pump.pinned?.amps?.median;
  const ampsShare = amps !== undefined && usual !== undefined ? amps / usual : 1;
  const less = ampsShare < 1 - AMPS_TOLERANCE;
  const runsBack = ampsShare > 1 + AMPS_TOLERANCE ? 0.2 : less ? 0.1 : 0.14;
  const delayed = (scene.cycle?.riseDelayS ?? 0) > 8;
  return weighCauses({
    'worn-pump': less ? 0.5 : 0.3,
    'drop-pipe-leak': runsBack,
    'pitless-leak': runsBack,
    'check-valve': delayed ? 0.2 : 0.06,
    'low-well': less ? (times > 1.3 ? 0.2 : 0.15) : 0.1,
    'closed-valve': less ? 0.15 : 0.1,
    'plugged-filter': 0.08,
    'plugged-screen': 0.06,
  });
}
