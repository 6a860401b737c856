/**
 * Delivery has fallen from its baseline at the same pressure. What hydraulics reads from the fills decides; where it cannot, the
 * shortest fills do: use only lengthens runs, so the shortest of forty that take a third longer than the shortest ever did mean that less
 * water comes. A tank that takes more air or a wider band would look the same, so the band must be as it was; and what the pressures
 * explain that the fills are read at is taken off first.
 */
import { median, quantile } from '../baseline/robust.ts';
import { cutInOf, cutOutOf, freshCycles, listOf, numberOf, usualAmps, usesPressure } from './facts.ts';
import { levelFall } from './level-fall.ts';
import { shareAtPressures } from './moved-pressures.ts';
import { sayShare, sayTime, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { fillsTell } from './telling-fill.ts';
import { weigh } from './weigh.ts';

/** Shares of the delivery as learnt: one in eight lost, in the median of so many runs, for days. */
const LOW_SHARE = 0.88;
const BACK_SHARE = 0.96;
const RUNS = 16;
/** A fifth and more is told sooner; less only after longer than a generator stands in for the grid. */
const LEAST_MS = 36 * 3_600_000;
const LEAST_MILD_MS = 72 * 3_600_000;
const MILD_SHARE = 0.8;
/**
 * A pump that lifts less draws less: within this of its usual current it lifts what it did. Then it is heavy use that looks like a slow fill, or
 * a hole in the drop pipe; the share of a hole that matters. Through a hole water falls back at rest as well. Where none does, only what is
 * under the last share is told: fills are taken under draws of up to 0.4 of the delivery (src/hydraulics/delivery.ts), so that use alone can
 * make 0.6 of it, and a herd in a hot week does.
 */
const AMPS_AS_EVER = 0.015;
const LOW_SHARE_AMPS_AS_EVER = 0.84;
const LOW_SHARE_IN_USE = 0.6;
/** L/h: a dripping tap is less than falls back through a hole that matters. */
const FALLS_BACK_L_PER_H = 3;
/** By run time alone. */
const SLOW_RUNS = 30;
const SLOW_TIMES = 1.35;
const BAND_SHARE = 0.1;
/** A store: the quickest of so many fills, against the lower quartile as learnt. */
const STORE_RUNS = 8;
const STORE_TIMES = 1.6;

export const slowFill: Watch = {
  alarm: 'slow-fill',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 3 * 86_400,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const levelFallM = levelFall(scene, memo);
  if (!scene.pump.baseline) return undefined;
  if (!usesPressure(scene.pump)) return byStore(scene);
  const share = scene.well.water.deliveryShare;
  const found =
    share === undefined ? byRunTime(scene) : fillsTell(scene) ? byDelivery(scene, memo, share) : undefined;
  return found && levelFallM !== undefined
    ? { ...found, evidence: { ...found.evidence, levelFallM } }
    : found;
}

function byDelivery(scene: Scene, memo: Memo, share: number): Finding | null | undefined {
  const kept = [...listOf(memo, 'shares'), tidy(share, 3)].slice(-RUNS);
  memo['shares'] = kept;
  if (kept.length < RUNS) return undefined;
  const middle = quantile(kept, 0.5)!;
  if (middle >= BACK_SHARE) {
    delete memo['lowSinceMs'];
    return null;
  }
  if (middle >= lowShare(scene) * shareAtPressures(scene)) {
    delete memo['lowSinceMs'];
    return undefined;
  }
  memo['lowSinceMs'] = numberOf(memo, 'lowSinceMs', scene.atMs);
  const sinceMs = numberOf(memo, 'lowSinceMs', scene.atMs);
  if (scene.atMs - sinceMs < (middle > MILD_SHARE ? LEAST_MILD_MS : LEAST_MS)) return undefined;
  return {
    sinceMs,
    why: `The pump delivers ${sayShare(1 - middle)} less at the same pressure than it did when it was first learnt.`,
    evidence: { deliveryShare: tidy(middle), runs: RUNS },
    causes: causesOf(scene, 1 / middle),
  };
}

function lowShare(scene: Scene): number {
  const usual = usualAmps(scene);
  const amps = median(freshCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  if (usual === undefined || amps === undefined) return LOW_SHARE;
  if (Math.abs(amps / usual - 1) >= AMPS_AS_EVER) return LOW_SHARE;
  return fallsBack(scene) ? LOW_SHARE_AMPS_AS_EVER : LOW_SHARE_IN_USE;
}

function fallsBack(scene: Scene): boolean {
  const { dayLoss, ceaseless } = scene.well.water;
  return Math.max(dayLoss?.lPerH ?? 0, ceaseless?.lPerH ?? 0) > FALLS_BACK_L_PER_H;
}

function byRunTime(scene: Scene): Finding | null | undefined {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const cycles = freshCycles(scene, SLOW_RUNS);
  if (!normal || normal.median <= 0 || cycles.length < SLOW_RUNS || !bandAsEver(scene)) return undefined;
  const low = quantile(
    cycles.map((cycle) => cycle.ranS),
    0.15,
  )!;
  const times = low / normal.median;
  const limit = Math.max(SLOW_TIMES, 1 + (4 * normal.spread) / normal.median);
  if (times < 1 + 0.7 * (limit - 1)) return null;
  if (times < limit) return undefined;
  return {
    sinceMs: cycles[0]!.startedMs,
    why: `Even the quickest fills take ${sayTime(low)} now; ${sayTime(normal.median)} was usual.`,
    evidence: { fillS: tidy(low, 1), normalS: tidy(normal.median, 1), times: tidy(times) },
    causes: causesOf(scene, times),
  };
}

/**
 * A float fills the same store each time, and what is drunk meanwhile only lengthens a fill: when even the quickest of eight takes so much
 * longer, less comes. A hot week with the herd at the trough is allowed for.
 */
function byStore(scene: Scene): Finding | null | undefined {
  const normal = scene.pump.pinned?.ranLowS ?? scene.pump.baseline?.ranLowS;
  const cycles = freshCycles(scene, STORE_RUNS);
  if (!normal || normal.median <= 0 || cycles.length < STORE_RUNS) return undefined;
  const least = Math.min(...cycles.map((cycle) => cycle.ranS));
  const times = least / normal.median;
  const limit = Math.max(STORE_TIMES, 1 + (4 * normal.spread) / normal.median);
  if (times < 1 + 0.7 * (limit - 1)) return null;
  if (times < limit) return undefined;
  return {
    sinceMs: cycles[0]!.startedMs,
    why: `Even the quickest of the last ${STORE_RUNS} fills of the store took ${sayTime(least)}; ${sayTime(normal.median)} was usual.`,
    evidence: { fillS: tidy(least, 1), normalS: tidy(normal.median, 1), times: tidy(times) },
    causes: weigh({
      'worn-pump': 0.3,
      'low-well': 0.2,
      leak: 0.2,
      'drop-pipe-leak': 0.1,
      'habit-changed': 0.2,
    }),
  };
}

function bandAsEver(scene: Scene): boolean {
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  const last = scene.cycle;
  if (
    cutIn === undefined ||
    cutOut === undefined ||
    last?.cutInKpa === undefined ||
    last.cutOutKpa === undefined
  )
    return false;
  return Math.abs((last.cutOutKpa - last.cutInKpa) / (cutOut - cutIn) - 1) < BAND_SHARE;
}

/** A slow rise at the start of each run is the pipe filling first: what came up went down again. */
function causesOf(scene: Scene, times: number): Finding['causes'] {
  const amps = scene.cycle?.amps;
  const usual = scene.pump.pinned?.amps?.median;
  const ampsShare = amps !== undefined && usual !== undefined ? amps / usual : 1;
  const delayed = (scene.cycle?.riseDelayS ?? 0) > 8;
  return weigh({
    'worn-pump': ampsShare < 0.985 ? 0.5 : 0.3,
    'drop-pipe-leak': ampsShare > 1.015 ? 0.2 : 0.1,
    'pitless-leak': ampsShare > 1.015 ? 0.2 : 0.1,
    'check-valve': delayed ? 0.2 : 0.06,
    'low-well': times > 1.3 ? 0.2 : 0.15,
    'closed-valve': ampsShare < 0.985 ? 0.15 : 0.1,
  });
}
