/**
 * The tank holds more air than cut-in: it is empty before the switch closes, and for some seconds at the end of each draw nothing comes. The
 * trade wants 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007); told from 3 psi over it.
 */
import { DAY_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import { reportsForGroup } from '../pump-peers.ts';
import { normalCutInKpa, recentCycles, KPA_PER_PSI, normalAmpsOf } from '../scene-queries.ts';
import { estimateOvercharge, type OverchargeEstimate } from '../pump/pressure-shift.ts';
import { formatPressure, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { measureAir } from './measured-air.ts';
import { isUsableFill } from '../pump/usable-fill.ts';
import { weighCauses } from '../weigh-causes.ts';

const MIN_OVER_CUT_IN_KPA = 3 * KPA_PER_PSI;
const DEADBAND_KPA = 1.5 * KPA_PER_PSI;
const RUNS = 12;
/** By starts: the fills' rate has fallen at least so far, and by what the new charge makes likely: its estimate is low, never high. */
const MAX_DELIVERY_RATIO = 0.95;
const MAX_ABOVE_ESTIMATE = 0.05;
const MAX_BELOW_ESTIMATE = 0.15;
const AMPS_TOLERANCE = 0.025;
const OVERCHARGE_CAUSES = weighCauses({
  'tank-overcharged': 0.7,
  'switch-out-of-set': 0.2,
  'transducer-fault': 0.1,
});

export const tankOvercharged: Watch = {
  alarm: 'tank-overcharged',
  scope: 'pump',
  triggers: ['cycle'],
  onDelayS: 0,
  offDelayS: DAY_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  if (!reportsForGroup(scene)) return undefined;
  const overcharge = estimateOvercharge(scene);
  if (overcharge && doFillsAgree(scene, overcharge)) return startsFinding(scene, overcharge);
  const air = measureAir(scene, memo);
  const cutIn = normalCutInKpa(scene);
  if (!air || cutIn === undefined) return undefined;
  const over = air.prechargeKpa - cutIn;
  if (over < MIN_OVER_CUT_IN_KPA - DEADBAND_KPA) return overcharge ? undefined : null;
  if (over < MIN_OVER_CUT_IN_KPA || !isUsableFill(medianRunS(scene))) return undefined;
  return {
    sinceMs: scene.cycle?.startedMs ?? scene.atMs,
    why: `The tank's air charge reads ${formatPressure(air.prechargeKpa)} from its fills, over the cut-in of ${formatPressure(cutIn)}: it is empty before the pump starts.`,
    evidence: {
      airKpa: roundTo(air.prechargeKpa, 0),
      cutInKpa: roundTo(cutIn, 0),
      normalKpa: roundTo(air.normalPrechargeKpa, 0),
    },
    causes: OVERCHARGE_CAUSES,
  };
}

/**
 * More air makes each fill slower by as much as its charge is higher, and leaves the motor's current as it was. A switch that closes sooner
 * leaves the fills as they were; a weaker pump draws less.
 */
function doFillsAgree(scene: Scene, overfull: OverchargeEstimate): boolean {
  const { deliveryRatio } = scene.well.water;
  const usual = normalAmpsOf(scene);
  const amps = median(recentCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  if (deliveryRatio === undefined || deliveryRatio > MAX_DELIVERY_RATIO) return false;
  if (usual !== undefined && amps !== undefined && Math.abs(amps / usual - 1) > AMPS_TOLERANCE) return false;
  return (
    deliveryRatio < overfull.deliveryRatio + MAX_ABOVE_ESTIMATE &&
    deliveryRatio > overfull.deliveryRatio - MAX_BELOW_ESTIMATE
  );
}

function startsFinding(
  scene: Scene,
  { prechargeKpa, normalPrechargeKpa, deliveryRatio, sinceMs }: OverchargeEstimate,
): Finding {
  const cutIn = normalCutInKpa(scene) ?? 0;
  return {
    sinceMs,
    why: `Runs start from ${formatPressure(prechargeKpa)} and more, where the switch closes at ${formatPressure(cutIn)}, and each fill takes longer for the same rise with the motor as ever: the tank holds too much air, and is empty before the pump starts.`,
    evidence: {
      airKpa: roundTo(prechargeKpa, 0),
      cutInKpa: roundTo(cutIn, 0),
      normalKpa: roundTo(normalPrechargeKpa, 0),
      fillsShare: roundTo(deliveryRatio),
    },
    causes: OVERCHARGE_CAUSES,
  };
}

/** Time of the last runs, s. */
function medianRunS(scene: Scene): number {
  return median(recentCycles(scene, RUNS).map((cycle) => cycle.ranS)) ?? 0;
}
