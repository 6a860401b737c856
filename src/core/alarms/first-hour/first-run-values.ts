/**
 * What the first runs of a pump have shown, for the checks of the first hour: medians of a handful
 * of whole runs, or what was learnt since.
 */
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { recentCycles, isCompleteRun } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/** A handful: one odd run among five moves no median. */
export const MIN_FIRST_RUNS = 5;
const MAX_RUNS = 10;
/** Current is judged of runs that are more than a start. */
const MIN_RAN_S = 5;

export function firstRuns(scene: Scene): Cycle[] {
  return recentCycles(scene, MAX_RUNS, (cycle) => isCompleteRun(cycle) && cycle.ranS >= MIN_RAN_S);
}

type Figure = 'amps' | 'cutInKpa' | 'cutOutKpa' | 'volts' | 'ranS';

/** Median over the runs; undefined with fewer than a handful that have it. */
export function medianOf(runs: readonly Cycle[], figure: Figure): number | undefined {
  const values = runs.map((cycle) => cycle[figure]).filter((value) => value !== undefined);
  return values.length < MIN_FIRST_RUNS ? undefined : median(values);
}

/** As first learnt, where it was: what changes later is news of the well and not of the card. */
export function firstAmps(scene: Scene): number | undefined {
  return scene.pump.pinned?.amps?.median ?? medianOf(firstRuns(scene).filter(isUnderLoad), 'amps');
}

/** A run that lost its water says what air takes, and nothing of the card. */
function isUnderLoad({ loadLoss }: Cycle): boolean {
  return loadLoss === undefined;
}

export function firstCutIn(scene: Scene): number | undefined {
  return scene.pump.pinned?.cutInKpa?.median ?? medianOf(firstRuns(scene), 'cutInKpa');
}

export function firstCutOut(scene: Scene): number | undefined {
  return scene.pump.pinned?.cutOutKpa?.median ?? medianOf(firstRuns(scene), 'cutOutKpa');
}
