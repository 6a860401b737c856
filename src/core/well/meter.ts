/**
 * A flow meter's litres: flow summed over time. The contract puts the
 * meter at the pump: what passes in a run is what the pump lifted. A meter behind the tank shows
 * itself by what passes while the pump rests; then it counts the water used, and of a run it says
 * nothing.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { addRate, newRunningSum, passedAt, type Reach, type RunningSum } from './running-sum.ts';

export interface Meter {
  /** Liters. */
  flow: RunningSum;
  /** What passed in runs and between them, L, the old fading. */
  runL: number;
  restL: number;
  runs: number;
  /** What had passed when the last run stopped; -1 before one did. */
  stoppedL: number;
  /** Of the running day: what passed, L, and the time that was measured, ms. */
  dayL: number;
  dayMs: number;
}

const HISTORY_MS = MINUTE_MS;
const L_PER_M3 = 1000;
/**
 * More than this share between runs is no pump's meter: a check valve that weeps passes nothing
 * forwards.
 */
const MAX_REST_FRACTION = 0.25;
const MIN_RUNS = 3;
/** About the last thirty runs count. */
const RUN_DECAY = 0.97;
/** A day with a tenth unmeasured has no total, as with pressure. */
const MIN_COVERAGE = 0.9;

export function newMeter(): Meter {
  return {
    flow: newRunningSum(),
    runL: 0,
    restL: 0,
    runs: 0,
    stoppedL: -1,
    dayL: 0,
    dayMs: 0,
  };
}

/** One reading, m3/s. */
export function addMeterReading(meter: Meter, tMs: number, m3PerS: number, reach: Reach): void {
  const lPerS = Math.max(0, m3PerS * L_PER_M3);
  const { lastMs } = meter.flow;
  const passedL = addRate(meter.flow, tMs, lPerS, { ...reach, historyMs: HISTORY_MS });
  if (passedL !== undefined) {
    meter.dayL += passedL;
    meter.dayMs += tMs - lastMs;
  } else if (lastMs >= 0 && tMs > lastMs) {
    // What passed in a hole is not known, so nothing is said across it.
    meter.stoppedL = -1;
  }
}

/** What had passed at `tMs`, L; undefined where that is not within what is kept. */
export function litersAt(meter: Meter, tMs: number): number | undefined {
  return passedAt(meter.flow, tMs);
}

/**
 * A run is over. `startL`: what had passed when it began. Returns what the pump lifted, L, where
 * the meter can say.
 */
export function closeMeterRun(
  meter: Meter,
  startL: number | undefined,
  stoppedMs: number,
): number | undefined {
  const stopL = litersAt(meter, stoppedMs);
  if (stopL === undefined || startL === undefined) {
    meter.stoppedL = stopL ?? -1;
    return undefined;
  }
  const liftedL = Math.max(0, stopL - startL);
  if (meter.stoppedL >= 0) {
    meter.restL = meter.restL * RUN_DECAY + Math.max(0, startL - meter.stoppedL);
    meter.runL = meter.runL * RUN_DECAY + liftedL;
    meter.runs++;
  }
  meter.stoppedL = stopL;
  return isBehindTank(meter) ? undefined : liftedL;
}

/** Does it count what the house takes, and not what the pump lifts? */
export function isBehindTank({ runs, restL, runL }: Meter): boolean {
  return runs >= MIN_RUNS && restL > MAX_REST_FRACTION * (restL + runL);
}

/** Ends the day: what passed in it, L; undefined where too little of it was measured. */
export function closeMeterDay(meter: Meter, dayMs: number): number | undefined {
  const { dayL } = meter;
  const covered = meter.dayMs >= MIN_COVERAGE * dayMs;
  meter.dayL = 0;
  meter.dayMs = 0;
  return covered ? dayL : undefined;
}
