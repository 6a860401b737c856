/**
 * Did the switch itself end these short runs? One that was turned down opens at one pressure and
 * closes at one, at cut-in or under it, and the pump draws and delivers in between as ever. What
 * else stops a pump (an overload, a protector, a hand) does so wherever pressure happens to be, and
 * leaves the switch closed: the next run begins when that lets it.
 */
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { normalCutInKpa, KPA_PER_PSI, normalAmpsOf } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';
import { isEndSeen } from '../pump/unseen-run-end.ts';

/** Two ends may be alike by chance; a third is not (argued, not measured). */
const MIN_RUNS = 3;
/** A mechanical switch repeats to 1 or 2 psi (common practice). */
const ALIKE_KPA = 2 * KPA_PER_PSI;
/**
 * Of the starts: a tap that is opened wide lets pressure fall under cut-in before the motor is up.
 */
const MAX_ODD_STARTS = 1;
/**
 * Less current, or less water, than this share of the usual is a pump that was stopped by its own
 * trouble; delivery is not known as well as current.
 */
const MIN_NORMAL_RATIO = { amps: 0.93, delivery: 0.85 };

/**
 * `runs`: the last ones, oldest first, that were seen whole. Too few, or without pressure: not
 * known, so no.
 */
export function endedBySwitch(scene: Scene, runs: readonly Cycle[]): boolean {
  const cutIn = normalCutInKpa(scene);
  if (cutIn === undefined || runs.length < MIN_RUNS) return false;
  if (!runs.every((run) => isEndSeen(scene, run))) return false;
  const ends = runs.map((run) => run.cutOutKpa ?? NaN);
  const starts = runs.map((run) => run.cutInKpa ?? NaN);
  // A reading comes late by up to its period, and pressure has moved on by so much.
  const toleranceKpa = ALIKE_KPA + (median(runs.map((run) => stepKpa(run))) ?? 0);
  const closesKpa = median(starts) ?? NaN;
  const odd = starts.filter((kpa) => !(Math.abs(kpa - closesKpa) < toleranceKpa)).length;
  return (
    Math.max(...ends) - Math.min(...ends) < toleranceKpa &&
    odd <= MAX_ODD_STARTS &&
    closesKpa < cutIn + ALIKE_KPA &&
    runs.every((run) => run.loadLoss === undefined) &&
    worksNormally(scene, runs)
  );
}

function stepKpa(run: Cycle): number {
  const { cutInKpa, cutOutKpa, readings } = run;
  return cutInKpa === undefined || cutOutKpa === undefined ? 0 : Math.abs(cutOutKpa - cutInKpa) / readings;
}

function worksNormally(scene: Scene, runs: readonly Cycle[]): boolean {
  const usual = normalAmpsOf(scene);
  const amps = median(runs.flatMap((run) => (run.amps === undefined ? [] : [run.amps])));
  const weak = usual !== undefined && amps !== undefined && amps < MIN_NORMAL_RATIO.amps * usual;
  return !weak && (scene.well.water.deliveryRatio ?? 1) > MIN_NORMAL_RATIO.delivery;
}
