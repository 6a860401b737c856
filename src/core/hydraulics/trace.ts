/**
 * The course of one fill, thinned to some sixty points: the last minute before the run, the run,
 * and ten minutes after it. All that is learnt of pump and tank is read from such a trace once it
 * is whole (./fill.ts).
 */

/**
 * Points of one stretch: mean time (s from the trace's start) and mean gauge pressure of each bin.
 */
export interface TracePoints {
  s: number[];
  kpa: number[];
  /** Readings in the newest bin, and when it began. */
  newestCount: number;
  newestStartS: number;
}

export interface Trace {
  originMs: number;
  before: TracePoints;
  run: TracePoints;
  after: TracePoints;
  /** Width of the bins of the run, s; doubles when they are full. */
  runBinS: number;
  /** Warmth of the air at the first point before. */
  warmthBefore: number;
  startS?: number | undefined;
  stopS?: number | undefined;
  /** Of the run: the lowest pressure around its start, and its running current. */
  lowKpa?: number | undefined;
  amps?: number | undefined;
  /** Two pumps were at work in it. */
  multiplePumps?: true | undefined;
}

/**
 * A minute in bins of 6 s; a run in 24 points, whose bins double when they are full; the rest from
 * bins of 3 s on: some sixty points, whatever the reading's step.
 */
const MAX_BEFORE_POINTS = 10;
const BEFORE_BIN_S = 6;
const MAX_RUN_POINTS = 24;
const AFTER_BIN_S = 3;
/** Later bins grow: this share of the time since the stop. */
const AFTER_BIN_GROWTH = 0.3;
export const AFTER_S = 600;

function emptyPoints(): TracePoints {
  return { s: [], kpa: [], newestCount: 0, newestStartS: 0 };
}

export function newTrace(atMs: number, warmth: number): Trace {
  return {
    originMs: atMs,
    before: emptyPoints(),
    run: emptyPoints(),
    after: emptyPoints(),
    runBinS: 1,
    warmthBefore: warmth,
    // Named from the start, so that every trace has one shape.
    startS: undefined,
    stopS: undefined,
    lowKpa: undefined,
    amps: undefined,
    multiplePumps: undefined,
  };
}

/**
 * Adds to the newest bin while it is narrower than `widthS`, else opens one. Means are rounded when
 * their bin is whole.
 */
function addPoint(points: TracePoints, s: number, kpa: number, widthS: number): void {
  const last = points.s.length - 1;
  if (last < 0 || s - points.newestStartS >= widthS) {
    if (last >= 0) {
      points.s[last] = round(points.s[last]!, 10);
      points.kpa[last] = round(points.kpa[last]!, 100);
    }
    points.s.push(s);
    points.kpa.push(kpa);
    points.newestCount = 1;
    points.newestStartS = s;
    return;
  }
  points.newestCount++;
  points.s[last] = points.s[last]! + (s - points.s[last]!) / points.newestCount;
  points.kpa[last] = points.kpa[last]! + (kpa - points.kpa[last]!) / points.newestCount;
}

/** A reading at rest before any run. `warmth`: the air's at this reading. */
export function traceBefore(trace: Trace, atMs: number, kpa: number, warmth: number): void {
  const { before } = trace;
  addPoint(before, (atMs - trace.originMs) / 1000, kpa, BEFORE_BIN_S);
  if (before.s.length <= MAX_BEFORE_POINTS) return;
  dropOldest(trace, warmth);
}

/**
 * Warmth is followed at the newest point alone; the oldest one's is near it, and fades within a
 * minute or two.
 */
function dropOldest(trace: Trace, warmth: number): void {
  const { s, kpa } = trace.before;
  trace.warmthBefore = round(warmth, 1e6);
  const shift = s[1]!;
  for (let i = 1; i < s.length; i++) {
    s[i - 1] = s[i]! - shift;
    kpa[i - 1] = kpa[i]!;
  }
  s.length--;
  kpa.length--;
  trace.originMs += shift * 1000;
  trace.before.newestStartS -= shift;
}

export function traceRun(trace: Trace, atMs: number, kpa: number): void {
  const { run } = trace;
  addPoint(run, (atMs - trace.originMs) / 1000, kpa, trace.runBinS);
  if (run.s.length < MAX_RUN_POINTS) return;
  for (let i = 0; i + 1 < run.s.length; i += 2) {
    run.s[i / 2] = round((run.s[i]! + run.s[i + 1]!) / 2, 100);
    run.kpa[i / 2] = round((run.kpa[i]! + run.kpa[i + 1]!) / 2, 100);
  }
  run.s.length = run.kpa.length = MAX_RUN_POINTS / 2;
  run.newestStartS = -1e9;
  trace.runBinS *= 2;
}

export function traceAfter(trace: Trace, atMs: number, kpa: number): void {
  const s = (atMs - trace.originMs) / 1000;
  addPoint(trace.after, s, kpa, Math.max(AFTER_BIN_S, AFTER_BIN_GROWTH * (s - (trace.stopS ?? s))));
}

function round(x: number, per: number): number {
  return Math.round(x * per) / per;
}
