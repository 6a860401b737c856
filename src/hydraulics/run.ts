/**
 * The water of one run: what the pump lifted, what of it the tank took and what was drawn meanwhile. Lifted is the learnt delivery
 * over the pressures that the run went through; before anything is learnt, the run's own rate of fill with the draw that stood
 * before it. Above the pressures ever seen in a fill only what the tank takes is counted: the pump may be at its shut-off there.
 */
import { runLongerByS } from './boundary.ts';
import { USUAL_FALL_PER_KPA, rateAt, type Level } from './level.ts';
import { readFill, roomGained, type Fill } from './fill.ts';
import { airNowKpaL, deliveryShare, type AirSeen } from './tank-air.ts';
import type { Trace } from './trace.ts';

export interface OpenRun {
  startedMs: number;
  lastMs: number;
  lastKpa: number;
  lastRoom: number;
  startKpa: number;
  /** Lowest reading around the start. */
  lowKpa: number;
  startRoom: number;
  /** Integral of the learnt rate over the run so far, 1/kPa. */
  lifted: number;
  /** Whether every reading of it found a learnt rate. */
  learnt: boolean;
  riseDelayS?: number;
  /** Pressure when the last minute of the run began, for levelling off. */
  markMs: number;
  markKpa: number;
  riseKpaPerMin?: number;
  /** Steady time between readings around the start, s; absent by exception. */
  startStepS?: number;
  /** Readings were lost in it. */
  broken: boolean;
}

export interface RunWater {
  /** All water that the pump lifted, L. */
  deliveredL?: number;
  /** What the tank took of it, L. Negative where more was drawn than delivered. */
  tankGainL?: number;
  drawnL?: number;
  deliveryLPerS?: number;
  /** Mean pressure of the run, kPa gauge, and its mean rise. */
  atKpa?: number;
  fillKpaPerS?: number;
  /** From the start until pressure has risen 7 kPa. */
  riseDelayS?: number;
  /** Pressure rose by less than 1 kPa in the run's last minute. */
  levelledOff?: boolean;
  /** Delivery of this run against the learnt one, 1 = as ever; only where nothing was drawn meanwhile is it the pump's own. */
  fillShare?: number;
  /** Delivery as it now is against that first learnt, 1 = as ever. */
  deliveryShare?: number;
}

const RISEN_KPA = 7;
const AT_START_MS = 6000;
const LEVEL_KPA_PER_MIN = 1;
/** Above the fills' highest pressure by this much, the line of delivery is not followed. */
const BEYOND_KPA = 20;
/** Before anything is learnt a rate this far from the card's is not believed. */
const RATED_MOST = 1.6;
const RATED_LEAST = 0.9;

/** `rested`: the last reading of the rest before, where there is one: the two books share that end. */
export function openRun(startedMs: number, rested?: { kpa: number; room: number }): OpenRun {
  return {
    startedMs,
    lastMs: -1,
    lastKpa: 0,
    lastRoom: 0,
    startKpa: 0,
    lowKpa: rested?.kpa ?? 1e9,
    startRoom: rested?.room ?? 0,
    lifted: 0,
    learnt: true,
    markMs: startedMs,
    markKpa: 0,
    broken: false,
  };
}

export function runReading(
  run: OpenRun,
  reading: { atMs: number; kpa: number; room: number; level: Level | undefined },
): void {
  const { atMs, kpa, room, level } = reading;
  if (run.lastMs < 0) {
    run.startKpa = run.markKpa = kpa;
    if (run.startRoom === 0) run.startRoom = room;
    run.lastMs = run.startedMs;
  } else {
    if (run.riseDelayS === undefined && kpa - run.startKpa >= RISEN_KPA)
      run.riseDelayS = (atMs - run.startedMs) / 1000;
    if (atMs - run.markMs >= 60_000) {
      run.riseKpaPerMin = ((kpa - run.markKpa) / (atMs - run.markMs)) * 60_000;
      run.markMs = atMs;
      run.markKpa = kpa;
    }
  }
  if (atMs - run.startedMs <= AT_START_MS) run.lowKpa = Math.min(run.lowKpa, kpa);
  lift(run, { untilMs: atMs, kpa: run.lastKpa === 0 ? kpa : (kpa + run.lastKpa) / 2, room, level });
  run.lastMs = atMs;
  run.lastKpa = kpa;
  run.lastRoom = room;
}

function lift(
  run: OpenRun,
  step: { untilMs: number; kpa: number; room: number; level: Level | undefined },
): void {
  const { untilMs, kpa, room, level } = step;
  if (!level) run.learnt = false;
  else if (kpa <= level.upToKpa + BEYOND_KPA)
    run.lifted += rateAt(level, kpa) * ((untilMs - run.lastMs) / 1000);
  else if (run.lastRoom > 0) run.lifted += run.lastRoom - room;
}

export interface RunReads extends AirSeen {
  /** The reading after the stop, where readings are steady. */
  stop?: { stepS: number; room: number };
  noiseKpa: number;
  trace: Trace | null;
  atmosphereKpa: number;
  coolingS: number;
  ratedLPerS?: number;
}

export function closeRun(run: OpenRun, stoppedMs: number, reads: RunReads): RunWater {
  if (run.lastMs < 0 || run.broken) return {};
  const { delivery, tank, trace } = reads;
  lift(run, { untilMs: stoppedMs, kpa: run.lastKpa, room: run.lastRoom, level: delivery.level });
  if (trace && delivery.level) run.lifted += betweenReadings(run, trace, delivery.level, reads);
  const ranS = (stoppedMs - run.startedMs) / 1000;
  const fill = trace ? readFill(trace, reads) : undefined;
  const gained = (trace && roomGained(trace, reads)) ?? run.startRoom - run.lastRoom;
  const now = deliveryShare(reads);
  return {
    ...(tank && litresOf(run, ranS, gained, fill, reads, airNowKpaL(reads))),
    ...(fill && { atKpa: fill.kpa }),
    ...(ranS > 0 && { fillKpaPerS: (run.lastKpa - run.startKpa) / ranS }),
    ...(run.riseDelayS !== undefined && { riseDelayS: run.riseDelayS }),
    ...(run.riseKpaPerMin !== undefined && { levelledOff: run.riseKpaPerMin < LEVEL_KPA_PER_MIN }),
    ...(fill && delivery.level && { fillShare: fill.rate / rateAt(delivery.level, fill.kpa) }),
    ...(now !== undefined && { deliveryShare: now }),
  };
}

/** What the run's true start and stop between the readings add to what was lifted, 1/kPa. */
function betweenReadings(run: OpenRun, trace: Trace, level: Level, reads: RunReads): number {
  const rate = rateAt(level, level.kpa);
  const longerS = runLongerByS(trace, reads, {
    ...(run.startStepS !== undefined && { startStepS: run.startStepS }),
    ...(reads.stop && { stopStepS: reads.stop.stepS, stopRoom: reads.stop.room }),
    roomNoise: (reads.noiseKpa * run.lastRoom) / (run.lastKpa + reads.atmosphereKpa),
    rate,
  });
  return longerS * rate;
}

function litresOf(
  run: OpenRun,
  ranS: number,
  gained: number,
  fill: Fill | undefined,
  reads: RunReads,
  airKpaL: number,
): RunWater {
  const tankGainL = gained * airKpaL;
  // While few fills are known, one run says as much of itself as they do; and a draw only ever hides delivery.
  const own = run.learnt && reads.delivery.seasoned ? 0 : ownRate(fill, reads, airKpaL) * ranS;
  const lifted = run.learnt ? Math.max(run.lifted * airKpaL, own || 0) : own;
  const deliveredL = Math.max(0, lifted);
  if (!Number.isFinite(deliveredL)) return { tankGainL };
  return {
    deliveredL,
    tankGainL,
    // The same ends as the rest before and after, so that the day's sum holds.
    drawnL: deliveredL - (run.startRoom - run.lastRoom) * airKpaL,
    ...(ranS > 0 && { deliveryLPerS: deliveredL / ranS }),
  };
}

/**
 * L/s of a run before anything is learnt: its better half, since a draw only slows a fill. Held to what the card's rating makes likely;
 * a fill slower than that is rather a draw than a weak pump.
 */
function ownRate(fill: Fill | undefined, reads: RunReads, airKpaL: number): number {
  const rated = reads.ratedLPerS;
  if (!fill) return rated ?? Number.NaN;
  const tilt = USUAL_FALL_PER_KPA * (fill.lateKpa - fill.kpa);
  const own = Math.max(fill.rate, fill.halves[0] * (1 - tilt), fill.halves[1] * (1 + tilt)) * airKpaL;
  return rated === undefined ? own : Math.min(rated * RATED_MOST, Math.max(rated * RATED_LEAST, own));
}
