/**
 * What a fill's rate owes to the pressures it is read at, and not to the pump. By Boyle a litre moves pressure by its square: where gauge and switch
 * points all read higher alike, each fill looks slower by that square, whether the transducer drifted or the switch was set. And a tank
 * pumped up over cut-in is empty before the pump starts: the starts then read near the new charge, while cut-out stays.
 */
import { median, quantile } from '../baseline/robust.ts';
import { atmosphericKpa } from '../../shared/units/altitude.ts';
import { cutInOf, cutOutOf, freshCycles, hasPressureCycle, isWhole, PSI } from './facts.ts';
import type { Scene } from './scene.ts';

const RUNS = 12;
/** Both ends move alike within this. */
const ALIKE_KPA = 1.5 * PSI;
/** Less than this is the spread of the starts. */
const LEAST_KPA = 0.5 * PSI;
/** Starts that read so much higher, in the median: readings some seconds apart catch the fall to cut-in now and then. */
const STARTS_KPA = 2 * PSI;
/** The trade's charge under cut-in, where the card says none (Water Systems Council, "Pressure Tanks", 2007). */
const USUAL_UNDER_KPA = 2 * PSI;

export interface OverfullSeen {
  /** Near the charge: what the higher starts read, kPa gauge. */
  airKpa: number;
  /** The charge that it should be. */
  normalKpa: number;
  /** How much slower that makes a fill, 1 = as ever. */
  share: number;
  sinceMs: number;
}

interface Points {
  inKpa: number[];
  wasInKpa: number;
  outByKpa: number;
  wasOutKpa: number;
  sinceMs: number;
}

function pointsOf(scene: Scene): Points | undefined {
  const wasInKpa = cutInOf(scene);
  const wasOutKpa = cutOutOf(scene);
  const cycles = freshCycles(
    scene,
    RUNS,
    (cycle) => isWhole(cycle) && cycle.cutInKpa !== undefined && cycle.cutOutKpa !== undefined,
  );
  if (!hasPressureCycle(scene.pump) || wasInKpa === undefined || wasOutKpa === undefined) return undefined;
  if (cycles.length < RUNS) return undefined;
  return {
    inKpa: cycles.map((cycle) => cycle.cutInKpa!),
    wasInKpa,
    wasOutKpa,
    outByKpa: median(cycles.map((cycle) => cycle.cutOutKpa!))! - wasOutKpa,
    sinceMs: cycles[0]!.startedMs,
  };
}

function outsideKpa(scene: Scene): number {
  return atmosphericKpa(Math.min(scene.well.card.altitudeM, 10_000));
}

/** Starts over the switch's cut-in while cut-out stays: the tank may be empty by then. The fills' rate must agree before anything is said. */
export function overfullSeen(scene: Scene): OverfullSeen | undefined {
  const points = pointsOf(scene);
  if (!points || Math.abs(points.outByKpa) > ALIKE_KPA) return undefined;
  if (median(points.inKpa)! - points.wasInKpa < STARTS_KPA) return undefined;
  const airKpa = quantile(points.inKpa, 0.75)!;
  const normalKpa = scene.well.water.airNormalKpa ?? points.wasInKpa - USUAL_UNDER_KPA;
  const outside = outsideKpa(scene);
  return {
    airKpa,
    normalKpa,
    share: Math.min(1, (normalKpa + outside) / (airKpa + outside)),
    sinceMs: points.sinceMs,
  };
}

/** The delivery share that a pump as good as ever would show at the pressures as they now read; 1 where they have not moved. */
export function shareAtPressures(scene: Scene): number {
  const points = pointsOf(scene);
  if (!points) return 1;
  const overfull = overfullSeen(scene);
  if (overfull) return overfull.share;
  const inBy = median(points.inKpa)! - points.wasInKpa;
  const by = (inBy + points.outByKpa) / 2;
  if (by < LEAST_KPA || Math.abs(inBy - points.outByKpa) > ALIKE_KPA) return 1;
  const middle = (points.wasInKpa + points.wasOutKpa) / 2 + outsideKpa(scene);
  return (middle / (middle + by)) ** 2;
}
