/**
 * When current fell away within a run and stayed down while pressure did not go on rising: the pump had water and lost it. A fill takes
 * some of the current away too, but evenly and while pressure climbs; what counts here is a fall of a fifth that lasts to the end.
 */
import type { Shape } from './shape.ts';

/** An unloaded motor draws half to three quarters (common practice, no source); a fill from cut-in to cut-out takes a tenth at most. */
const FALLEN_SHARE = 0.8;
const FIRST_SHARE = 0.87;
/** What the run drew when it was well must have been seen: so many steps, and for so long. */
const LEAST_BEFORE = 3;
const LEAST_BEFORE_S = 10;
/** One step alone is the stop itself. */
const LEAST_AFTER = 2;
/** 1 psi more than at the break is water that still comes. */
const RISEN_KPA = 7;

export interface Broke {
  /** Seconds from the start of the run. */
  atS: number;
  /** What was left of the current, as a share. */
  share: number;
}

/** Undefined where nothing broke. */
export function brokeAt(shape: Shape): Broke | undefined {
  const { everyS, amps, kpa } = shape;
  for (let at = LEAST_BEFORE; at <= amps.length - LEAST_AFTER; at++) {
    if (at * everyS < LEAST_BEFORE_S) continue;
    const before = middleOf(amps.slice(1, at).filter((value) => value !== null));
    const value = amps[at];
    if (value === null || value === undefined || value > FIRST_SHARE * before) continue;
    const after = amps.slice(at).filter((one) => one !== null);
    const share = middleOf(after) / before;
    if (after.length < LEAST_AFTER || share > FALLEN_SHARE) continue;
    return risesOn(kpa, at) ? undefined : { atS: at * everyS, share };
  }
  return undefined;
}

function risesOn(kpa: readonly (number | null)[], from: number): boolean {
  const then = kpa[from];
  const later = middleOf(kpa.slice(from + 1).filter((value) => value !== null));
  return then !== null && then !== undefined && later > then + RISEN_KPA;
}

/** The upper median; 0 of an empty list. */
function middleOf(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
}
