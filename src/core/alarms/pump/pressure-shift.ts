/**
 * What a fill's rate owes to the pressures it is read at, and not to the pump. By Boyle a litre
 * moves pressure by its square: where gauge and switch points all read higher alike, each fill
 * looks slower by that square, whether the transducer drifted or the switch was set. And a tank
 * pumped up over cut-in is empty before the pump starts: the starts then read near the new charge,
 * while cut-out stays.
 */
import { median, quantile } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { atmosphericKpa } from '../../../../shared/units/altitude.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  recentCycles,
  hasPressureCycle,
  isCompleteRun,
  KPA_PER_PSI,
} from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/** The median of a dozen runs: half a day to a day of a house (argued, not measured). */
const RUNS = 12;
/** Both ends move alike within this. */
const ALIKE_KPA = 1.5 * KPA_PER_PSI;
/** Less than this is the spread of the starts. */
const MIN_SHIFT_KPA = 0.5 * KPA_PER_PSI;
/**
 * Starts that read so much higher, in the median: readings some seconds apart catch the fall to
 * cut-in now and then.
 */
const MIN_START_RISE_KPA = 2 * KPA_PER_PSI;
/**
 * An empty tank gives nothing more: pressure falls from its charge through cut-in between two
 * readings, and starts read anywhere near. Of so many starts the middle half lies this far apart,
 * and by more than three times what a fill moves between two readings: no draw empties a tank at
 * three times the rate at which its pump fills it (pumps are sized for the draw; argued).
 */
const SCATTERED_RUNS = 8;
const MIN_SCATTER_KPA = 3 * KPA_PER_PSI;
const SCATTER_STEPS = 3;
/**
 * They swing so far up and down again and again. A switch that was turned is one swing, two runs
 * that start early are two, and with a heavy draw among its runs a turned switch makes three
 * (argued).
 */
const MIN_SWINGS = 4;
/** More than one swing is no turned switch: short fills may then be of an empty tank. */
const MIN_POSSIBLE_SWINGS = 2;
/**
 * The trade's charge under cut-in, where the card says none (Water Systems Council, "Pressure
 * Tanks", 2007).
 */
const DEFAULT_UNDER_KPA = 2 * KPA_PER_PSI;

export interface OverchargeEstimate {
  /** Near the charge: what the higher starts read, kPa gauge. */
  prechargeKpa: number;
  /** The charge that it should be. */
  normalPrechargeKpa: number;
  /** How much slower that makes a fill, 1 = as ever. */
  deliveryRatio: number;
  sinceMs: number;
}

interface PressurePoints {
  cutInsKpa: number[];
  normalCutInKpa: number;
  cutOutShiftKpa: number;
  normalCutOutKpa: number;
  sinceMs: number;
}

function pointsOf(scene: Scene): PressurePoints | undefined {
  const wasInKpa = normalCutInKpa(scene);
  const wasOutKpa = normalCutOutKpa(scene);
  const cycles = recentCycles(scene, RUNS, hasBothEnds);
  if (!hasPressureCycle(scene.pump) || wasInKpa === undefined || wasOutKpa === undefined) return undefined;
  if (cycles.length < RUNS) return undefined;
  return {
    cutInsKpa: cycles.map((cycle) => cycle.cutInKpa!),
    normalCutInKpa: wasInKpa,
    normalCutOutKpa: wasOutKpa,
    cutOutShiftKpa: median(cycles.map((cycle) => cycle.cutOutKpa!))! - wasOutKpa,
    sinceMs: cycles[0]!.startedMs,
  };
}

function siteAtmosphereKpa(scene: Scene): number {
  return atmosphericKpa(Math.min(scene.well.card.altitudeM, 10_000));
}

/**
 * Starts over the switch's cut-in while cut-out stays: the tank may be empty by then. The fills'
 * rate must agree before anything is said.
 */
export function estimateOvercharge(scene: Scene): OverchargeEstimate | undefined {
  const points = pointsOf(scene);
  if (!points || Math.abs(points.cutOutShiftKpa) > ALIKE_KPA) return undefined;
  if (median(points.cutInsKpa)! - points.normalCutInKpa < MIN_START_RISE_KPA) return undefined;
  return overchargeOf(scene, quantile(points.cutInsKpa, 0.75)!, points.sinceMs);
}

interface StartSwings {
  count: number;
  highestKpa: number;
  sinceMs: number;
}

/**
 * Starts scattered about the switch's cut-in, some of them well over it, while runs end as ever.
 * The charge is at least what the highest of them reads.
 */
export function estimateSuddenFall(scene: Scene): OverchargeEstimate | undefined {
  const swings = startSwings(scene);
  if (!swings || swings.count < MIN_SWINGS) return undefined;
  return overchargeOf(scene, swings.highestKpa, swings.sinceMs);
}

/** The starts may be those of an empty tank, though they are too few to say so. */
export function maySuddenlyFall(scene: Scene): boolean {
  return (startSwings(scene)?.count ?? 0) >= MIN_POSSIBLE_SWINGS;
}

function startSwings(scene: Scene): StartSwings | undefined {
  const cutInKpa = normalCutInKpa(scene);
  const cutOutKpa = normalCutOutKpa(scene);
  const runs = recentCycles(scene, SCATTERED_RUNS, hasBothEnds);
  if (!hasPressureCycle(scene.pump) || cutInKpa === undefined || cutOutKpa === undefined) return undefined;
  if (runs.length < SCATTERED_RUNS) return undefined;
  const startsKpa = runs.map((run) => run.cutInKpa!);
  const scatterKpa = quantile(startsKpa, 0.75)! - quantile(startsKpa, 0.25)!;
  const stepKpa = median(runs.map((run) => (run.cutOutKpa! - run.cutInKpa!) / run.readings))!;
  const minKpa = Math.max(MIN_SCATTER_KPA, SCATTER_STEPS * stepKpa);
  const highestKpa = Math.max(...startsKpa);
  // A gauge that has stuck shows all runs between one pressure and itself.
  if (runs.some((run) => Math.abs(run.cutOutKpa! - cutOutKpa) > MIN_SCATTER_KPA)) return undefined;
  if (scatterKpa < minKpa) return undefined;
  if (highestKpa < cutInKpa + MIN_SCATTER_KPA || highestKpa > cutOutKpa - ALIKE_KPA) return undefined;
  return { count: countSwings(startsKpa, minKpa), highestKpa, sinceMs: runs[0]!.startedMs };
}

/** How often the values went so far up, or down, from where they had turned. */
function countSwings(values: readonly number[], minSwing: number): number {
  let [low, high] = [values[0]!, values[0]!];
  let [count, direction] = [0, 0];
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
    const isUp = direction <= 0 && value - low >= minSwing;
    const isDown = direction >= 0 && high - value >= minSwing;
    if (!isUp && !isDown) continue;
    count++;
    direction = isUp ? 1 : -1;
    low = high = value;
  }
  return count;
}

function hasBothEnds(cycle: Cycle): boolean {
  return isCompleteRun(cycle) && cycle.cutInKpa !== undefined && cycle.cutOutKpa !== undefined;
}

function overchargeOf(scene: Scene, prechargeKpa: number, sinceMs: number): OverchargeEstimate {
  const cutInKpa = normalCutInKpa(scene)!;
  const normalPrechargeKpa = scene.well.water.normalPrechargeKpa ?? cutInKpa - DEFAULT_UNDER_KPA;
  const outside = siteAtmosphereKpa(scene);
  const deliveryRatio = Math.min(1, (normalPrechargeKpa + outside) / (prechargeKpa + outside));
  return { prechargeKpa, normalPrechargeKpa, deliveryRatio, sinceMs };
}

/**
 * The delivery share that a pump as good as ever would show at the pressures as they now read; 1
 * where they have not moved.
 */
export function expectedDeliveryRatio(scene: Scene): number {
  const points = pointsOf(scene);
  if (!points) return 1;
  const overcharge = estimateOvercharge(scene);
  if (overcharge) return overcharge.deliveryRatio;
  const cutInShiftKpa = median(points.cutInsKpa)! - points.normalCutInKpa;
  const shiftKpa = (cutInShiftKpa + points.cutOutShiftKpa) / 2;
  if (shiftKpa < MIN_SHIFT_KPA || Math.abs(cutInShiftKpa - points.cutOutShiftKpa) > ALIKE_KPA) return 1;
  const middle = (points.normalCutInKpa + points.normalCutOutKpa) / 2 + siteAtmosphereKpa(scene);
  return (middle / (middle + shiftKpa)) ** 2;
}
