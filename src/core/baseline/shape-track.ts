/**
 * The usual shape of a run, learnt without keeping runs: at each step of an even grid a running
 * median and a running spread, each moved by a bounded step towards every new run (stochastic
 * approximation of a quantile, Robbins & Monro 1951). A run that is quite different moves them no
 * further than one that is a little different.
 */
import type { Cycle } from '../cycles/cycle.ts';
import type { ShapeTrack } from './learning.ts';

/** Steps of the grid: enough to draw a band by, few enough to save. */
const GRID_STEPS = 10;
/** The grid covers this much of an ordinary run: fills by an undisturbed house lie within it. */
const GRID_RUN_LENGTHS = 1.25;
/** Learning slows down as 1/n and goes no lower than this: about the last forty runs count. */
const MIN_LEARNING_RATE = 0.05;
/** A pump at its least flow draws two thirds and more of what it usually does. */
const MIN_AMPS_RATIO = 0.6;
/** First guess of a spread: 1.5 % of the value, and no less than what sensors show. */
const INITIAL_SPREAD_RATIO = 0.015;

/** Takes the shape of one clean run. `normalRanS` sets the grid when the first one comes. */
export function trackShape(
  track: ShapeTrack | undefined,
  cycle: Cycle,
  normalRanS: number,
): ShapeTrack | undefined {
  if (!cycle.shape) return track;
  const next = track ?? emptyTrack((normalRanS * GRID_RUN_LENGTHS) / GRID_STEPS);
  next.n++;
  const rate = Math.max(MIN_LEARNING_RATE, 1 / (next.n + 1));
  for (let step = 0; step < GRID_STEPS; step++) {
    const atS = step * next.everyS;
    if (atS > cycle.ranS) break;
    if (!isStopPoint(cycle, atS))
      updateEstimate(
        next.amps,
        next.ampsSpread,
        step,
        valueAt(cycle.shape.amps, cycle.shape.everyS, atS),
        rate,
        0.02,
      );
    updateEstimate(
      next.kpa,
      next.kpaSpread,
      step,
      valueAt(cycle.shape.kpa, cycle.shape.everyS, atS),
      rate,
      1,
    );
  }
  return next;
}

/**
 * The last step of a shape holds readings of the stop; and a mean over the second in which it came
 * shows a part of the current.
 */
function isStopPoint({ ranS, amps, shape }: Cycle, atS: number): boolean {
  if (!shape || atS === 0) return false;
  const step = Math.ceil(atS / shape.everyS);
  if ((step + 1) * shape.everyS > ranS) return true;
  const value = shape.amps[step];
  return amps !== undefined && typeof value === 'number' && value < MIN_AMPS_RATIO * amps;
}

function emptyTrack(everyS: number): ShapeTrack {
  const blank = (): (number | null)[] => Array.from({ length: GRID_STEPS }, () => null);
  const grid = Math.max(0.1, Number(everyS.toPrecision(2)));
  return { everyS: grid, n: 0, amps: blank(), ampsSpread: blank(), kpa: blank(), kpaSpread: blank() };
}

function updateEstimate(
  middles: (number | null)[],
  spreads: (number | null)[],
  step: number,
  value: number | undefined,
  rate: number,
  minSpread: number,
): void {
  if (value === undefined) return;
  const middle = middles[step];
  if (middle === null || middle === undefined) {
    middles[step] = Number(value.toPrecision(4));
    spreads[step] = Number(Math.max(minSpread, Math.abs(value) * INITIAL_SPREAD_RATIO).toPrecision(3));
    return;
  }
  const spread = spreads[step] ?? minSpread;
  const deviation = value - middle;
  const bounded = Math.max(-spread, Math.min(spread, deviation));
  middles[step] = Number((middle + rate * 2 * bounded).toPrecision(4));
  // The MAD is where half lie inside: it grows by what lies outside and shrinks by what lies
  // inside.
  const outside = Math.abs(deviation) > spread / 1.4826 ? 1 : -1;
  spreads[step] = Number(Math.max(minSpread, spread * (1 + rate * 0.5 * outside)).toPrecision(3));
}

function valueAt(values: readonly (number | null)[], everyS: number, atS: number): number | undefined {
  const place = atS / everyS;
  const below = values[Math.floor(place)];
  const above = values[Math.ceil(place)];
  if (below === null || below === undefined) return above ?? undefined;
  if (above === null || above === undefined) return below;
  return below + (above - below) * (place - Math.floor(place));
}
