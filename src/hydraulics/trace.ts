/**
 * The course of one fill, thinned to some sixty points: the last minute before the run, the run, and ten minutes after it. All
 * that is learnt of pump and tank is read from such a trace once it is whole (./fill.ts).
 */

/** Points of one stretch: mean time (s from the trace's start) and mean gauge pressure of each bin. */
export interface Points {
  s: number[];
  kpa: number[];
  /** Readings in the newest bin, and when it began. */
  n: number;
  sinceS: number;
}

export interface Trace {
  originMs: number;
  before: Points;
  run: Points;
  after: Points;
  /** Width of the bins of the run, s; doubles when they are full. */
  runBinS: number;
  startS?: number;
  stopS?: number;
  /** Of the run: its running current, and the lowest pressure around its start. */
  amps?: number;
  lowKpa?: number;
  /** Two pumps were at work in it. */
  mixed?: true;
  /** Warmth of the air at the first point before. */
  warmthBefore: number;
}

const BEFORE_MOST = 10;
const BEFORE_BIN_S = 6;
const RUN_MOST = 24;
const AFTER_BIN_S = 3;
/** Later bins grow: this share of the time since the stop. */
const AFTER_GROWS = 0.3;
export const AFTER_S = 600;

function noPoints(): Points {
  return { s: [], kpa: [], n: 0, sinceS: 0 };
}

export function newTrace(atMs: number, warmth: number): Trace {
  return {
    originMs: atMs,
    before: noPoints(),
    run: noPoints(),
    after: noPoints(),
    runBinS: 2,
    warmthBefore: warmth,
  };
}

/** Adds to the newest bin while it is narrower than `widthS`, else opens one. Means are rounded when their bin is whole. */
function add(points: Points, s: number, kpa: number, widthS: number): void {
  const last = points.s.length - 1;
  if (last < 0 || s - points.sinceS >= widthS) {
    if (last >= 0) {
      points.s[last] = round(points.s[last]!, 10);
      points.kpa[last] = round(points.kpa[last]!, 100);
    }
    points.s.push(s);
    points.kpa.push(kpa);
    points.n = 1;
    points.sinceS = s;
    return;
  }
  points.n++;
  points.s[last] = points.s[last]! + (s - points.s[last]!) / points.n;
  points.kpa[last] = points.kpa[last]! + (kpa - points.kpa[last]!) / points.n;
}

/** A reading at rest before any run. `warmth`: the air's at this reading. */
export function traceBefore(trace: Trace, atMs: number, kpa: number, warmth: number): void {
  const { before } = trace;
  add(before, (atMs - trace.originMs) / 1000, kpa, BEFORE_BIN_S);
  if (before.s.length <= BEFORE_MOST) return;
  dropOldest(trace, warmth);
}

/** Warmth is followed at the newest point alone; the oldest one's is near it, and fades within a minute or two. */
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
  trace.before.sinceS -= shift;
}

export function traceRun(trace: Trace, atMs: number, kpa: number): void {
  const { run } = trace;
  add(run, (atMs - trace.originMs) / 1000, kpa, trace.runBinS);
  if (run.s.length < RUN_MOST) return;
  for (let i = 0; i + 1 < run.s.length; i += 2) {
    run.s[i / 2] = round((run.s[i]! + run.s[i + 1]!) / 2, 100);
    run.kpa[i / 2] = round((run.kpa[i]! + run.kpa[i + 1]!) / 2, 100);
  }
  run.s.length = run.kpa.length = RUN_MOST / 2;
  run.sinceS = -1e9;
  trace.runBinS *= 2;
}

export function traceAfter(trace: Trace, atMs: number, kpa: number): void {
  const s = (atMs - trace.originMs) / 1000;
  add(trace.after, s, kpa, Math.max(AFTER_BIN_S, AFTER_GROWS * (s - (trace.stopS ?? s))));
}

function round(x: number, per: number): number {
  return Math.round(x * per) / per;
}
