/**
 * Delivery has fallen from its baseline at the same pressure. What hydraulics reads from the fills
 * decides; where it cannot, the shortest fills do: use only lengthens runs, so the shortest of
 * forty that take a third longer than the shortest ever did mean that less water comes. A tank that
 * takes more air or a wider band would look the same, so the band must be as it was; and what the
 * pressures explain that the fills are read at is taken off first.
 */
import { HOUR_MS } from '../../../../shared/units/duration.ts';
import { median, quantile } from '../../baseline/robust.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  recentCycles,
  normalAmpsOf,
  usesPressure,
} from '../scene-queries.ts';
import { levelFall, type LevelMemory } from './level-fall.ts';
import { expectedDeliveryRatio } from './pressure-shift.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { areFillsUsable } from './usable-fill.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Shares of the delivery as learnt: one in eight lost, in the median of so many runs, for days. */
const LOW_RATIO = 0.88;
const CLEAR_RATIO = 0.96;
const RUNS = 16;
/**
 * A fifth and more is told sooner; less only after longer than a generator stands in for the grid.
 */
const MIN_LOW_MS = 36 * HOUR_MS;
const MIN_MILD_MS = 72 * HOUR_MS;
const MILD_RATIO = 0.8;
/**
 * A pump that lifts less draws less: within this of its usual current it lifts what it did. Then it
 * is heavy use that looks like a slow fill, or a hole in the drop pipe; the share of a hole that
 * matters. Through a hole water falls back at rest as well. Where none does, only what is under the
 * last share is told: fills are taken under draws of up to 0.4 of the delivery
 * (src/core/hydraulics/delivery.ts), so that use alone can make 0.6 of it, and a herd in a hot week
 * does.
 */
const AMPS_TOLERANCE = 0.015;
const LOW_RATIO_SAME_AMPS = 0.84;
const LOW_RATIO_IN_USE = 0.6;
/** L/h: a dripping tap is less than falls back through a hole that matters. */
const MIN_BACKFLOW_L_PER_H = 3;
/** By run time alone. */
const SLOW_RUNS = 30;
const MIN_SLOW_RATIO = 1.35;
const BAND_TOLERANCE = 0.1;
/** A store: the quickest of so many fills, against the lower quartile as learnt. */
const STORE_RUNS = 8;
const MIN_STORE_RATIO = 1.6;

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
  const middle = quantile(recentRatios, 0.5)!;
  if (middle >= CLEAR_RATIO) {
    delete memory.lowSinceMs;
    return CLEAR;
  }
  if (middle >= lowRatioLimit(scene) * expectedDeliveryRatio(scene)) {
    delete memory.lowSinceMs;
    return cannotTell('near-limit');
  }
  memory.lowSinceMs ??= scene.atMs;
  const sinceMs = memory.lowSinceMs;
  if (scene.atMs - sinceMs < (middle > MILD_RATIO ? MIN_MILD_MS : MIN_LOW_MS))
    return cannotTell('not-long-enough');
  return {
    is: 'active',
    sinceMs,
    reason: 'delivery-down',
    figures: { lossRatio: 1 - middle },
    evidence: { deliveryShare: roundTo(middle), runs: RUNS },
    causes: causesOf(scene, 1 / middle),
  };
}

function lowRatioLimit(scene: Scene): number {
  const usual = normalAmpsOf(scene);
  const amps = median(recentCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  if (usual === undefined || amps === undefined) return LOW_RATIO;
  if (Math.abs(amps / usual - 1) >= AMPS_TOLERANCE) return LOW_RATIO;
  return flowsBack(scene) ? LOW_RATIO_SAME_AMPS : LOW_RATIO_IN_USE;
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
  const low = quantile(
    cycles.map((cycle) => cycle.ranS),
    0.15,
  )!;
  const times = low / normal.median;
  const limit = Math.max(MIN_SLOW_RATIO, 1 + (4 * normal.spread) / normal.median);
  if (times < 1 + 0.7 * (limit - 1)) return CLEAR;
  if (times < limit) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: cycles[0]!.startedMs,
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
  const cycles = recentCycles(scene, STORE_RUNS);
  if (!normal || normal.median <= 0) return cannotTell('learning');
  if (cycles.length < STORE_RUNS) return cannotTell('too-few-runs');
  const minRanS = Math.min(...cycles.map((cycle) => cycle.ranS));
  const times = minRanS / normal.median;
  const limit = Math.max(MIN_STORE_RATIO, 1 + (4 * normal.spread) / normal.median);
  if (times < 1 + 0.7 * (limit - 1)) return CLEAR;
  if (times < limit) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: cycles[0]!.startedMs,
    reason: 'store-fills-slow',
    figures: { runs: STORE_RUNS, fillS: minRanS, normalS: normal.median },
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

/** A slow rise at the start of each run is the pipe filling first: what came up went down again. */
function causesOf(scene: Scene, times: number): Active['causes'] {
  const amps = scene.cycle?.amps;
  const usual = scene.pump.pinned?.amps?.median;
  const ampsShare = amps !== undefined && usual !== undefined ? amps / usual : 1;
  const delayed = (scene.cycle?.riseDelayS ?? 0) > 8;
  return weighCauses({
    'worn-pump': ampsShare < 0.985 ? 0.5 : 0.3,
    'drop-pipe-leak': ampsShare > 1.015 ? 0.2 : 0.1,
    'pitless-leak': ampsShare > 1.015 ? 0.2 : 0.1,
    'check-valve': delayed ? 0.2 : 0.06,
    'low-well': times > 1.3 ? 0.2 : 0.15,
    'closed-valve': ampsShare < 0.985 ? 0.15 : 0.1,
  });
}
