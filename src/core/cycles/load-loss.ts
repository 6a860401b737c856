/**
 * When current fell away within a run and stayed down while pressure did not go on rising: the pump
 * had water and lost it. A fill takes some of the current away too, but evenly and while pressure
 * climbs; what counts here is a fall of a fifth that lasts to the end.
 */
import type { Shape } from './shape.ts';
import { upperMedian } from './upper-median.ts';

/**
 * An unloaded motor draws half to three quarters (common practice, no source); a fill from cut-in
 * to cut-out takes a tenth at most.
 */
const MAX_REMAINING_RATIO = 0.8;
const MAX_FIRST_RATIO = 0.87;
/** What the run drew when it was well must have been seen: so many steps, and for so long. */
const MIN_STEPS_BEFORE = 3;
const MIN_BEFORE_S = 10;
/** One step alone is the stop itself. */
const MIN_STEPS_AFTER = 2;
/** Three at the end and more of them before it. */
const MIN_READINGS = 8;
/** 1 psi more than at the break is water that still comes. */
const RISEN_KPA = 7;

export interface LoadLoss {
  /** Seconds from the start of the run. */
  atS: number;
  /** What was left of the current, as a share. */
  ratio: number;
}

/**
 * Undefined where nothing broke. `ranS`: the run's length; a step that it does not fill holds
 * readings of the rest as well.
 */
export function findLoadLoss(shape: Shape, ranS = shape.everyS * shape.amps.length): LoadLoss | undefined {
  const { everyS, kpa } = shape;
  const amps = shape.amps.slice(0, Math.floor(ranS / everyS));
  for (let at = MIN_STEPS_BEFORE; at <= amps.length - MIN_STEPS_AFTER; at++) {
    if (at * everyS < MIN_BEFORE_S) continue;
    const before = upperMedian(amps.slice(1, at).filter((value) => value !== null));
    const value = amps[at];
    if (value === null || value === undefined || value > MAX_FIRST_RATIO * before) continue;
    const after = amps.slice(at).filter((one) => one !== null);
    const ratio = upperMedian(after) / before;
    if (after.length < MIN_STEPS_AFTER || ratio > MAX_REMAINING_RATIO) continue;
    return keepsRising(kpa, at) ? undefined : { atS: at * everyS, ratio };
  }
  return undefined;
}

/**
 * The same where a protector ended the run within seconds, too soon for its shape: two of the last
 * three readings are low. One alone is the stop itself. Whether the run ended where it should, the
 * caller knows.
 */
export function findLoadLossAtEnd(
  ends: readonly [number, number, number],
  run: { amps: number; ranS: number; periodS: number; readings: number },
): LoadLoss | undefined {
  const ratio = upperMedian(ends) / run.amps;
  const atS = run.ranS - ends.length * run.periodS;
  if (run.readings < MIN_READINGS || ratio > MAX_REMAINING_RATIO || atS < MIN_BEFORE_S) return undefined;
  return { atS, ratio };
}

function keepsRising(kpa: readonly (number | null)[], from: number): boolean {
  const then = kpa[from];
  const later = upperMedian(kpa.slice(from + 1).filter((value) => value !== null));
  return then !== null && then !== undefined && later > then + RISEN_KPA;
}
