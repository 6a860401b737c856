/**
 * What one whole trace says of the fill, in units of the tank's air charge (1/kPa and 1/kPa/s;
 * times `airKpaL` they are litres and litres a second), so that it holds for an unknown tank too.
 * The draw during a run can't be seen. But what was drawn just before and just after can, and the
 * moment of the stop joins the two: delivery at the stop = rate of fill up to it + rate of draw
 * after it.
 */
import { warmthAfter, type AirResponse } from './air.ts';
import { fitLine, lineValueAt, type LinearFit } from './linear-fit.ts';
import type { TracePoints, Trace } from './trace.ts';

/** One fill, as later ones are compared with it. Rates in 1/kPa/s, pressures in kPa gauge. */
export interface Fill {
  /**
   * Rate of the whole run at its mean pressure, with the draw that stood both before and after it.
   */
  rate: number;
  kpa: number;
  /** How much of `rate` is that draw. */
  steadyDraw: number;
  /** Standard error of the rate. */
  rateError: number;
  /**
   * Rate of the run's second half with the draw that stood after it. Absent where the rest after
   * was not seen.
   */
  lateRate?: number;
  lateKpa: number;
  /**
   * Rates of the first and the second half alone, each less its standard error, so that the better
   * one is no lucky guess.
   */
  halves: [number, number];
  /** Share by which the fill slowed from the first half to the second, for each kPa. */
  slowingPerKpa: number;
  drawBefore?: number;
  drawAfter?: number;
}

/** Room of the air (1/kPa) along a trace, stretch by stretch. */
export interface AirVolumes {
  before: number[];
  run: number[];
  after: number[];
}

export interface AirParams extends AirResponse {
  atmosphereKpa: number;
}

/** Follows the air's warmth along the trace. */
export function airVolumesOf(trace: Trace, air: AirParams): AirVolumes {
  let warmth = trace.warmthBefore;
  let lastS: number | undefined;
  let lastLn = 0;
  const follow = (points: TracePoints): number[] =>
    points.s.map((s, i) => {
      const ln = Math.log(Math.max(1, points.kpa[i]! + air.atmosphereKpa));
      if (lastS !== undefined)
        warmth = warmthAfter(warmth, s - lastS, (ln - lastLn) * air.warmRatio, air.coolingS);
      lastS = s;
      lastLn = ln;
      return Math.exp(warmth - ln);
    });
  return { before: follow(trace.before), run: follow(trace.run), after: follow(trace.after) };
}

/**
 * Long enough for a slope of readings 5 to 10 s apart, short enough that a draw before or after is
 * likely still the one in the run (argued, not measured).
 */
const WINDOW_S = 45;
/**
 * The first seconds of a run and of the rest after it hold the boundary itself and the water's
 * swing.
 */
const EDGE_S = 2;

/** The draw before the run: rise of room over its last 45 s. */
function drawBefore(trace: Trace, airVolumes: AirVolumes): LinearFit | undefined {
  const { s } = trace.before;
  const start = trace.startS ?? 0;
  const from = s.findIndex((x) => x > start - WINDOW_S - EDGE_S);
  return from < 0 ? undefined : fitLine(s, airVolumes.before, from);
}

function drawAfter(trace: Trace, airVolumes: AirVolumes): LinearFit | undefined {
  const { s } = trace.after;
  const stop = trace.stopS ?? 0;
  const from = s.findIndex((x) => x > stop + EDGE_S);
  const to = s.findIndex((x) => x > stop + WINDOW_S + EDGE_S);
  return from < 0 ? undefined : fitLine(s, airVolumes.after, from, to < 0 ? s.length : to);
}

/** Places of the run's points that lie clear of its start and stop. */
function rangeClearOfEdges(trace: Trace): [number, number] {
  const { s } = trace.run;
  const start = (trace.startS ?? 0) + EDGE_S;
  const stop = (trace.stopS ?? Infinity) - EDGE_S / 2;
  let from = 0;
  let to = s.length;
  while (from < to && s[from]! < start) from++;
  while (to > from && s[to - 1]! > stop) to--;
  return [from, to];
}

/**
 * Reads a trace whose run has stopped; undefined where the run has too few points to tell a rate.
 */
export function measureFill(trace: Trace, air: AirParams): Fill | undefined {
  const airVolumes = airVolumesOf(trace, air);
  const [from, to] = rangeClearOfEdges(trace);
  const { s, kpa } = trace.run;
  const middle = (from + to) >> 1;
  const whole = fitLine(s, airVolumes.run, from, to);
  const first = fitLine(s, airVolumes.run, from, middle);
  const second = fitLine(s, airVolumes.run, middle, to);
  if (!whole || !first || !second) return undefined;
  const before = drawBefore(trace, airVolumes)?.slope;
  const after = drawAfter(trace, airVolumes)?.slope;
  // What was drawn both before and after went on all the while.
  const steady = Math.max(0, Math.min(before ?? 0, after ?? 0));
  const lateKpa = meanOf(kpa, middle, to);
  const apartKpa = lateKpa - meanOf(kpa, from, middle);
  return {
    rate: steady - whole.slope,
    steadyDraw: steady,
    rateError: whole.slopeError,
    kpa: meanOf(kpa, from, to),
    lateKpa,
    halves: [-first.slope - (first.slopeError || 0), -second.slope - (second.slopeError || 0)],
    slowingPerKpa:
      apartKpa > 10 && first.slope < 0
        ? (1 - (steady - second.slope) / (steady - first.slope)) / apartKpa
        : Number.NaN,
    ...(after !== undefined && { lateRate: after - second.slope }),
    ...(before !== undefined && { drawBefore: before }),
    ...(after !== undefined && { drawAfter: after }),
  };
}

/**
 * Room that the run took from the air, 1/kPa, from the lines of its ends; the tank's gain once it
 * is times the air charge.
 */
export function airVolumeDisplaced(trace: Trace, air: AirParams): number | undefined {
  const airVolumes = airVolumesOf(trace, air);
  const { s } = trace.run;
  const third = Math.max(2, Math.round(s.length / 3));
  const head = fitLine(s, airVolumes.run, 0, Math.min(third, s.length));
  const tail = fitLine(s, airVolumes.run, Math.max(0, s.length - third));
  if (!head || !tail) return undefined;
  return lineValueAt(head, trace.startS ?? s[0]!) - lineValueAt(tail, trace.stopS ?? s.at(-1)!);
}

function meanOf(values: readonly number[], from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]!;
  return sum / (to - from);
}
