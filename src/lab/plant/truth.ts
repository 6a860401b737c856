/**
 * What really happened: each run of each pump as this clamp and transducer would show it without
 * noise, by the contract's own definitions, the litres truly lifted, and the litres truly drawn in
 * each local day.
 */
import { median } from 'simple-statistics';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { TrueCycle, TrueDay } from './params.ts';

interface OpenRun {
  startedMs: number;
  /**
   * When current was last seen, what it was at first, and what it was at the readings, or at every
   * `stride`th in a long run.
   */
  lastMs: number;
  firstAmps: number;
  amps: number[];
  atMs: number[];
  stride: number;
  cutInKpa: number | undefined;
  deliveredL: number;
  failedStart: boolean;
}

export interface TruthState {
  cycles: TrueCycle[];
  days: TrueDay[];
  open: (OpenRun | undefined)[];
  /** Shown pressure without noise at the last readings: a ring. */
  ringMs: number[];
  ringKpa: number[];
  ringAt: number;
  usedL: number;
  leakL: number;
  dayMs: number;
}

/** Readings kept: 10 s at the finest usual rate of one a second, and three at the coarsest. */
const RING = 16;
const WINDOW_MS = 10_000;
/** A bounce of the contacts does not end a run. */
const BOUNCE_MS = 700;
const COARSE_MS = 3000;
const MAX_AMPS = 512;
/** The first of a run, which its amps leave out where there is more (contract, section 6). */
const INRUSH_MS = 2000;

export function newTruth(pumps: number, dayMs: number): TruthState {
  return {
    cycles: [],
    days: [],
    open: Array.from({ length: pumps }, () => undefined),
    ringMs: [],
    ringKpa: [],
    ringAt: 0,
    usedL: 0,
    leakL: 0,
    dayMs,
  };
}

/** A reading was due: what the transducer would have shown without noise. */
export function recordKpa(truth: TruthState, tMs: number, kpa: number | undefined): void {
  if (kpa === undefined) return;
  truth.ringMs[truth.ringAt] = tMs;
  truth.ringKpa[truth.ringAt] = kpa;
  truth.ringAt = (truth.ringAt + 1) % RING;
}

/** The ring from the oldest to the newest, after `sinceMs` and up to `untilMs`. */
function recent(truth: TruthState, sinceMs: number, untilMs: number): { ms: number; kpa: number }[] {
  const out: { ms: number; kpa: number }[] = [];
  for (let i = 0; i < RING; i++) {
    const at = (truth.ringAt + i) % RING;
    const ms = truth.ringMs[at];
    if (ms !== undefined && ms > sinceMs && ms <= untilMs) out.push({ ms, kpa: truth.ringKpa[at]! });
  }
  return out;
}

/** The straight line of some points, taken at a moment. */
function fittedAt(points: { ms: number; kpa: number }[], atMs: number): number | undefined {
  if (points.length === 0) return undefined;
  const n = points.length;
  const t = points.reduce((sum, p) => sum + p.ms - atMs, 0) / n;
  const y = points.reduce((sum, p) => sum + p.kpa, 0) / n;
  let top = 0;
  let bottom = 0;
  for (const p of points) {
    top += (p.ms - atMs - t) * (p.kpa - y);
    bottom += (p.ms - atMs - t) ** 2;
  }
  return bottom === 0 ? y : y - (top / bottom) * t;
}

/**
 * The contract takes both pressures at readings: the first at which the pump runs, and the first at
 * which it no longer does.
 */
function readingAfter(ms: number, everyMs: number): number {
  return (Math.floor(ms / everyMs) + 1) * everyMs;
}

function cutInAt(truth: TruthState, atMs: number, everyMs: number): number | undefined {
  const all = recent(truth, -Infinity, atMs);
  const coarse = everyMs > COARSE_MS;
  return fittedAt(
    coarse ? all.slice(-3) : all.filter((p) => p.ms >= atMs - WINDOW_MS),
    readingAfter(atMs, everyMs),
  );
}

function cutOutAt(truth: TruthState, run: OpenRun, everyMs: number): number | undefined {
  const all = recent(truth, run.startedMs, run.lastMs);
  if (all.length < 3) return undefined;
  if (everyMs > COARSE_MS) return fittedAt(all.slice(-3), readingAfter(run.lastMs, everyMs));
  const late = all.filter((p) => p.ms >= run.lastMs - WINDOW_MS).map((p) => p.kpa);
  if (late.length < 3) return undefined;
  let best = -Infinity;
  for (let i = 2; i < late.length; i++)
    best = Math.max(best, [late[i - 2]!, late[i - 1]!, late[i]!].sort((a, b) => a - b)[1]!);
  return best;
}

function closeRun(truth: TruthState, pump: number, run: OpenRun, everyMs: number): void {
  const late = run.amps.filter((_, i) => run.atMs[i]! >= run.atMs[0]! + INRUSH_MS);
  const measured = [late, run.amps, [run.firstAmps]].find((amps) => amps.length > 0)!;
  const amps = run.failedStart ? undefined : median(measured);
  const cutOutKpa = run.failedStart ? undefined : cutOutAt(truth, run, everyMs);
  truth.cycles.push({
    pump,
    startedMs: run.startedMs,
    stoppedMs: run.lastMs,
    ...(amps !== undefined && { amps }),
    ...(run.cutInKpa !== undefined && { cutInKpa: run.cutInKpa }),
    ...(cutOutKpa !== undefined && { cutOutKpa }),
    deliveredL: run.deliveredL,
  });
  truth.open[pump] = undefined;
}

/**
 * One step of one pump that ended at `tMs`: whether current flowed, what the clamp would have
 * shown, what was lifted.
 */
export function recordRun(
  truth: TruthState,
  pump: number,
  step: {
    fromMs: number;
    tMs: number;
    on: boolean;
    failedStart: boolean;
    shownAmps: number;
    liftedL: number;
    everyMs: number;
  },
): void {
  let run = truth.open[pump];
  if (!step.on) {
    if (run && step.tMs - run.lastMs > BOUNCE_MS) closeRun(truth, pump, run, step.everyMs);
    return;
  }
  if (!run) {
    run = {
      startedMs: step.fromMs,
      lastMs: step.tMs,
      firstAmps: step.shownAmps,
      amps: [],
      atMs: [],
      stride: 1,
      cutInKpa: cutInAt(truth, step.fromMs, step.everyMs),
      deliveredL: 0,
      failedStart: step.failedStart,
    };
    truth.open[pump] = run;
  }
  // The contract takes the median of readings, each as good as another: so is it taken here.
  if (step.tMs % (step.everyMs * run.stride) === 0) {
    run.amps.push(step.shownAmps);
    run.atMs.push(step.tMs);
  }
  if (run.amps.length >= MAX_AMPS) {
    run.stride *= 2;
    const stays = run.atMs.map((ms, i) => i === 0 || ms % (step.everyMs * run.stride) === 0);
    run.amps = run.amps.filter((_, i) => stays[i]);
    run.atMs = run.atMs.filter((_, i) => stays[i]);
  }
  run.lastMs = step.tMs;
  run.deliveredL += step.liftedL;
  run.failedStart = run.failedStart && step.failedStart;
}

/** Water drawn in a step that ended at `tMs`; a local day that ended is put down. */
export function recordWater(truth: TruthState, tMs: number, usedL: number, leakL: number): void {
  if (tMs > truth.dayMs + DAY_MS) endDays(truth, tMs - 1);
  truth.usedL += usedL;
  truth.leakL += leakL;
}

/** Puts down the local days that are over at `tMs`. */
export function endDays(truth: TruthState, tMs: number): void {
  while (tMs >= truth.dayMs + DAY_MS) {
    const { dayMs: startMs, usedL, leakL } = truth;
    truth.days.push({ startMs, endMs: startMs + DAY_MS, usedL, leakL });
    truth.dayMs += DAY_MS;
    truth.usedL = 0;
    truth.leakL = 0;
  }
}
