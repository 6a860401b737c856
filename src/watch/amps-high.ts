/**
 * Running current over its normal, or over the motor's maximum. The second is physical: a motor that draws more than its service
 * factor allows is being cooked, whatever is normal for it.
 */
import { median } from '../baseline/robust.ts';
import {
  ampsShift,
  hasVolts,
  maybeSupply,
  supplyFacts,
  supplyText,
  supplyWeight,
  type AmpsShift,
} from './amps.ts';
import { freshCycles } from './facts.ts';
import { sayAmps, sayShare, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** Over the maximum by more than a clamp errs (2 %) and a supply strays (5 %), in the median of so many runs. */
const OVER_MAX = 1.07;
const RUNS = 5;
const FEW_READINGS = 3;
/** So far over it the rotor stood still: a start that failed (./failed-start.ts). */
const HELD = 2.2;

export const ampsHigh: Watch = {
  alarm: 'amps-high',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 21_600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const over = overMaximum(scene);
  if (over) return over;
  const shift = ampsShift(scene, memo);
  if (shift === null) delete memo['maybeSupply'];
  if (!shift) return shift;
  return shift.way === 'high' ? drawsMore(scene, memo, shift) : null;
}

function overMaximum(scene: Scene): Finding | undefined {
  const { maxAmps } = scene.pump.card;
  const learnt = scene.pump.pinned?.amps?.median;
  // A clamp that showed more than the maximum from the first day is a wrong card, and told as such (./sensor-fault.ts).
  if (maxAmps === undefined || learnt === undefined || learnt > OVER_MAX * maxAmps) return undefined;
  const last = freshCycles(
    scene,
    RUNS,
    (cycle) =>
      cycle.amps !== undefined &&
      cycle.amps < HELD * maxAmps &&
      cycle.ranS >= 5 &&
      // One or two readings may be of the start.
      cycle.readings >= FEW_READINGS &&
      !cycle.flags.includes('failed-start'),
  );
  if (last.length < RUNS) return undefined;
  const other = otherLoad(scene);
  if (other === undefined && scene.pump.card.alsoOnClamp !== undefined) return undefined;
  const amps = median(last.map((cycle) => cycle.amps!))! - (other ?? 0);
  if (amps <= OVER_MAX * maxAmps) return undefined;
  return {
    sinceMs: last[0]!.startedMs,
    why: `The pump draws ${sayAmps(amps)}, over the motor's maximum of ${sayAmps(maxAmps)}; it used to draw ${sayAmps(learnt)}.`,
    evidence: { amps: tidy(amps), maxAmps, normalAmps: tidy(learnt), runs: last.length },
    causes: causesOf(scene, true, 0),
  };
}

/**
 * What the clamp shows while the pump rests, A: it is not the motor's, and stands in the running current too. The highest of the last
 * half hour; undefined where the pump did not rest in it.
 */
function otherLoad(scene: Scene): number | undefined {
  const resting = scene.well.minutes
    .map((minute) => minute.pumps[scene.pump.index]?.resting?.mean)
    .filter((amps) => amps !== undefined);
  return resting.length === 0 ? undefined : Math.max(0, ...resting);
}

function drawsMore(scene: Scene, memo: Memo, shift: AmpsShift): Finding {
  const small = maybeSupply(scene, memo, shift);
  const supply = small ? 1 : supplyWeight(shift);
  const since = shift.slow ? 'since it was first learnt' : `over the last ${shift.runs} runs`;
  return {
    sinceMs: shift.sinceMs,
    why: `The pump draws ${sayAmps(shift.amps)}, ${sayShare(shift.share)} more than its usual ${sayAmps(shift.normal)} ${since}${supplyText(shift, small)}.`,
    evidence: {
      amps: tidy(shift.amps),
      normalAmps: tidy(shift.normal),
      share: tidy(shift.share, 3),
      runs: shift.runs,
      ...supplyFacts(scene, shift),
    },
    causes: causesOf(scene, false, supply),
  };
}

function causesOf(scene: Scene, over: boolean, supply: number): Finding['causes'] {
  const startAmps = scene.cycle?.startAmps;
  return weigh({
    'failing-motor': 0.35,
    sand: 0.2,
    'failing-capacitor': scene.pump.card.phase === 3 ? 0 : startAmps === undefined ? 0.2 : 0.15,
    'worn-pump': 0.08,
    'supply-voltage': supply > 0 ? supply : hasVolts(scene) ? 0 : over ? 0.1 : 0.15,
  });
}
