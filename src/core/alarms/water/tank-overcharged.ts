/**
 * The tank holds more air than cut-in: it is empty before the switch closes, and for some seconds
 * at the end of each draw nothing comes. The trade wants 2 psi under cut-in (Water Systems Council,
 * "Pressure Tanks", 2007); told from 3 psi over it.
 */
import { median } from '../../baseline/robust.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { reportsForGroup } from '../pump-peers.ts';
import { isCompleteRun, normalCutInKpa, recentCycles, KPA_PER_PSI, normalAmpsOf } from '../scene-queries.ts';
import { estimateOvercharge, estimateSuddenFall, type OverchargeEstimate } from '../pump/pressure-shift.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { measureAir, type AirMemory } from './measured-air.ts';
import { isUsableFill } from '../pump/usable-fill.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Told from 3 psi over cut-in, as the head of this file says; half of it must be gone before it
 * goes, so that it does not come and go (argued, not measured).
 */
const MIN_OVER_CUT_IN_KPA = 3 * KPA_PER_PSI;
const DEADBAND_KPA = 1.5 * KPA_PER_PSI;
/** The median of a dozen runs: half a day to a day of a house (argued, not measured). */
const RUNS = 12;
/**
 * By starts: the fills' rate has fallen at least so far, and by what the new charge makes likely:
 * its estimate is low, never high.
 */
const MAX_DELIVERY_RATIO = 0.95;
const MAX_ABOVE_ESTIMATE = 0.05;
const MAX_BELOW_ESTIMATE = 0.15;
const AMPS_TOLERANCE = 0.025;
const OVERCHARGE_CAUSES = weighCauses({
  'tank-overcharged': 0.7,
  'switch-out-of-set': 0.2,
  'transducer-fault': 0.1,
});

interface OverchargedMemory extends AirMemory {
  /** Last told by where runs start, not by the measured charge. */
  byStarts?: true;
}

export const tankOvercharged: Watch<OverchargedMemory> = {
  alarm: 'tank-overcharged',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({ air: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: OverchargedMemory): Evaluation {
  if (!reportsForGroup(scene)) return cannotTell('other-pump');
  const overcharge = estimateOvercharge(scene);
  const byStarts = findByStarts(scene, overcharge);
  if (byStarts) {
    memory.byStarts = true;
    return byStarts;
  }
  const air = measureAir(scene, memory);
  const cutIn = normalCutInKpa(scene);
  if (air.is === 'cannot-tell') return memory.byStarts && areStartsBackAtCutIn(scene) ? CLEAR : air;
  delete memory.byStarts;
  if (cutIn === undefined) return cannotTell('needs-card-switch');
  const over = air.prechargeKpa - cutIn;
  if (over < MIN_OVER_CUT_IN_KPA - DEADBAND_KPA)
    return overcharge ? cannotTell('measurements-disagree') : CLEAR;
  if (over < MIN_OVER_CUT_IN_KPA) return cannotTell('near-limit');
  if (!isUsableFill(medianRunS(scene))) return cannotTell('fills-too-short');
  return {
    is: 'active',
    sinceMs: scene.cycle?.startedMs ?? scene.atMs,
    reason: 'tank-empty-before-start',
    figures: { prechargeKpa: air.prechargeKpa, cutInKpa: cutIn },
    evidence: {
      airKpa: roundTo(air.prechargeKpa, 0),
      cutInKpa: roundTo(cutIn, 0),
      normalKpa: roundTo(air.normalPrechargeKpa, 0),
    },
    causes: OVERCHARGE_CAUSES,
  };
}

function findByStarts(scene: Scene, overcharge: OverchargeEstimate | undefined): Active | undefined {
  if (overcharge && doFillsAgree(scene, overcharge))
    return byStartsFinding(scene, overcharge, 'runs-start-over-cut-in', overcharge.deliveryRatio);
  const fall = isCurrentAsEver(scene) ? estimateSuddenFall(scene) : undefined;
  return fall && byStartsFinding(scene, fall, 'pressure-falls-suddenly');
}

/**
 * What was told by starts goes by starts where no charge can be measured: over a dozen runs an
 * empty tank makes some of them start well over cut-in.
 */
function areStartsBackAtCutIn(scene: Scene): boolean {
  const cutInKpa = normalCutInKpa(scene);
  const runs = recentCycles(scene, RUNS, (cycle) => isCompleteRun(cycle) && cycle.cutInKpa !== undefined);
  if (cutInKpa === undefined || runs.length < RUNS) return false;
  return runs.every((run) => run.cutInKpa! - cutInKpa < DEADBAND_KPA);
}

/**
 * More air makes each fill slower by as much as its charge is higher, and leaves the motor's
 * current as it was. A switch that closes sooner leaves the fills as they were; a weaker pump draws
 * less.
 */
function doFillsAgree(scene: Scene, overfull: OverchargeEstimate): boolean {
  const { deliveryRatio } = scene.well.water;
  if (deliveryRatio === undefined || deliveryRatio > MAX_DELIVERY_RATIO) return false;
  return (
    isCurrentAsEver(scene) &&
    deliveryRatio < overfull.deliveryRatio + MAX_ABOVE_ESTIMATE &&
    deliveryRatio > overfull.deliveryRatio - MAX_BELOW_ESTIMATE
  );
}

function isCurrentAsEver(scene: Scene): boolean {
  const usual = normalAmpsOf(scene);
  const amps = median(recentCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  return usual === undefined || amps === undefined || Math.abs(amps / usual - 1) <= AMPS_TOLERANCE;
}

/** `fillsShare`: how much longer fills take; absent before their rate is known anew. */
function byStartsFinding(
  scene: Scene,
  { prechargeKpa, normalPrechargeKpa, sinceMs }: OverchargeEstimate,
  reason: 'pressure-falls-suddenly' | 'runs-start-over-cut-in',
  fillsShare?: number,
): Active {
  const cutIn = normalCutInKpa(scene) ?? 0;
  return {
    is: 'active',
    sinceMs,
    reason,
    figures: { startKpa: prechargeKpa, cutInKpa: cutIn },
    evidence: {
      airKpa: roundTo(prechargeKpa, 0),
      cutInKpa: roundTo(cutIn, 0),
      normalKpa: roundTo(normalPrechargeKpa, 0),
      ...(fillsShare !== undefined && { fillsShare: roundTo(fillsShare) }),
    },
    causes: OVERCHARGE_CAUSES,
  };
}

/** Time of the last runs, s. */
function medianRunS(scene: Scene): number {
  return median(recentCycles(scene, RUNS).map((cycle) => cycle.ranS)) ?? 0;
}
