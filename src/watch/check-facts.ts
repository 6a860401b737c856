/** What the first runs of a pump have shown, for the checks of the first hour: medians of a handful of whole runs, or what was learnt since. */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { freshCycles, isWhole } from './facts.ts';
import type { Scene } from './scene.ts';

/** A handful: one odd run among five moves no median. */
export const FIRST_RUNS = 5;
const MOST_RUNS = 10;
/** Current is judged of runs that are more than a start. */
const LEAST_RAN_S = 5;

export function firstRuns(scene: Scene): Cycle[] {
  return freshCycles(scene, MOST_RUNS, (cycle) => isWhole(cycle) && cycle.ranS >= LEAST_RAN_S);
}

type Figure = 'amps' | 'cutInKpa' | 'cutOutKpa' | 'volts' | 'ranS';

/** Median over the runs; undefined with fewer than a handful that have it. */
export function middleOf(runs: readonly Cycle[], figure: Figure): number | undefined {
  const values = runs.map((cycle) => cycle[figure]).filter((value) => value !== undefined);
  return values.length < FIRST_RUNS ? undefined : median(values);
}

/** As first learnt, where it was: what changes later is news of the well and not of the card. */
export function firstAmps(scene: Scene): number | undefined {
  return scene.pump.pinned?.amps?.median ?? middleOf(firstRuns(scene), 'amps');
}

export function firstCutIn(scene: Scene): number | undefined {
  return scene.pump.pinned?.cutInKpa?.median ?? middleOf(firstRuns(scene), 'cutInKpa');
}

export function firstCutOut(scene: Scene): number | undefined {
  return scene.pump.pinned?.cutOutKpa?.median ?? middleOf(firstRuns(scene), 'cutOutKpa');
}
