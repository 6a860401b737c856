/**
 * The tank holds more air than cut-in: it is empty before the switch closes, and for some seconds at the end of each draw nothing comes. The
 * trade wants 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007); told from 3 psi over it.
 */
import { median } from '../baseline/robust.ts';
import { speaksForAll } from './company.ts';
import { cutInOf, freshCycles, PSI, usualAmps } from './facts.ts';
import { overfullSeen, type OverfullSeen } from './moved-pressures.ts';
import { sayPressure, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { airSeen } from './tank-air.ts';
import { isTelling } from './telling-fill.ts';
import { weigh } from './weigh.ts';

const OVER_KPA = 3 * PSI;
const DEADBAND_KPA = 1.5 * PSI;
const RUNS = 12;
/** By starts: the fills' rate has fallen at least so far, and by what the new charge makes likely: its estimate is low, never high. */
const SLOWER_SHARE = 0.95;
const AGREE_OVER = 0.05;
const AGREE_UNDER = 0.15;
const AMPS_AS_EVER = 0.025;
const CAUSES = weigh({ 'tank-overcharged': 0.7, 'switch-out-of-set': 0.2, 'transducer-fault': 0.1 });

export const tankOvercharged: Watch = {
  alarm: 'tank-overcharged',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 86_400,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  if (!speaksForAll(scene)) return undefined;
  const overfull = overfullSeen(scene);
  if (overfull && fillsAgree(scene, overfull)) return byStarts(scene, overfull);
  const air = airSeen(scene, memo);
  const cutIn = cutInOf(scene);
  if (!air || cutIn === undefined) return undefined;
  const over = air.airKpa - cutIn;
  if (over < OVER_KPA - DEADBAND_KPA) return overfull ? undefined : null;
  if (over < OVER_KPA || !isTelling(fillS(scene))) return undefined;
  return {
    sinceMs: scene.cycle?.startedMs ?? scene.atMs,
    why: `The tank's air charge reads ${sayPressure(air.airKpa)} from its fills, over the cut-in of ${sayPressure(cutIn)}: it is empty before the pump starts.`,
    evidence: { airKpa: tidy(air.airKpa, 0), cutInKpa: tidy(cutIn, 0), normalKpa: tidy(air.normalKpa, 0) },
    causes: CAUSES,
  };
}

/**
 * More air makes each fill slower by as much as its charge is higher, and leaves the motor's current as it was. A switch that closes sooner
 * leaves the fills as they were; a weaker pump draws less.
 */
function fillsAgree(scene: Scene, overfull: OverfullSeen): boolean {
  const { deliveryShare } = scene.well.water;
  const usual = usualAmps(scene);
  const amps = median(freshCycles(scene, RUNS).flatMap((cycle) => cycle.amps ?? []));
  if (deliveryShare === undefined || deliveryShare > SLOWER_SHARE) return false;
  if (usual !== undefined && amps !== undefined && Math.abs(amps / usual - 1) > AMPS_AS_EVER) return false;
  return deliveryShare < overfull.share + AGREE_OVER && deliveryShare > overfull.share - AGREE_UNDER;
}

function byStarts(scene: Scene, { airKpa, normalKpa, share, sinceMs }: OverfullSeen): Finding {
  const cutIn = cutInOf(scene) ?? 0;
  return {
    sinceMs,
    why: `Runs start from ${sayPressure(airKpa)} and more, where the switch closes at ${sayPressure(cutIn)}, and each fill takes longer for the same rise with the motor as ever: the tank holds too much air, and is empty before the pump starts.`,
    evidence: {
      airKpa: tidy(airKpa, 0),
      cutInKpa: tidy(cutIn, 0),
      normalKpa: tidy(normalKpa, 0),
      fillsShare: tidy(share),
    },
    causes: CAUSES,
  };
}

/** Time of the last runs, s. */
function fillS(scene: Scene): number {
  return median(freshCycles(scene, RUNS).map((cycle) => cycle.ranS)) ?? 0;
}
