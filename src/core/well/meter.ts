/**
 * A flow meter's litres: flow summed over time, with enough of the last minute kept to say how much
 * had passed when a run started or stopped that was believed a little later. The contract puts the
 * meter at the pump: what passes in a run is what the pump lifted. A meter behind the tank shows
 * itself by what passes while the pump rests; then it counts the water used, and of a run it says
 * nothing.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
export interface Meter {
  /** All that has passed, L; and readings of the last minute with what had passed at each. */
  liters: number;
  timeMs: number[];
  passedL: number[];
  lastMs: number;
  lPerS: number;
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
const TRIM_AT = 128;
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
    liters: 0,
    timeMs: [],
    passedL: [],
    lastMs: -1,
    lPerS: 0,
    runL: 0,
    restL: 0,
    runs: 0,
    stoppedL: -1,
    dayL: 0,
    dayMs: 0,
  };
}

/**
 * One reading, m3/s. `goodMs`: how long a reading is good; `holdsValue`: by exception a value
 * stands until the next, else flow changes evenly between two.
 */
export function addMeterReading(
  meter: Meter,
  tMs: number,
  m3PerS: number,
  { goodMs, holdsValue }: { goodMs: number; holdsValue: boolean },
): void {
  const lPerS = Math.max(0, m3PerS * L_PER_M3);
  const stepMs = tMs - meter.lastMs;
  if (meter.lastMs >= 0 && stepMs > 0 && stepMs <= goodMs) {
    const mean = holdsValue ? meter.lPerS : (meter.lPerS + lPerS) / 2;
    const passed = (mean * stepMs) / 1000;
    meter.liters += passed;
    meter.dayL += passed;
    meter.dayMs += stepMs;
  } else if (meter.lastMs >= 0 && stepMs > goodMs) {
    // What passed in a hole is not known, so nothing is said across it.
    meter.timeMs = [];
    meter.passedL = [];
    meter.stoppedL = -1;
  }
  meter.lastMs = tMs;
  meter.lPerS = lPerS;
  meter.timeMs.push(tMs);
  meter.passedL.push(meter.liters);
  if (meter.timeMs.length >= TRIM_AT) trim(meter, tMs - HISTORY_MS);
}

function trim(meter: Meter, fromMs: number): void {
  let from = 0;
  while (from < meter.timeMs.length - 2 && meter.timeMs[from + 1]! < fromMs) from++;
  if (from === 0) return;
  meter.timeMs.splice(0, from);
  meter.passedL.splice(0, from);
}

/** What had passed at `tMs`, L; undefined where that is not within what is kept. */
export function litersAt(meter: Meter, tMs: number): number | undefined {
  const { timeMs, passedL } = meter;
  if (timeMs.length === 0 || tMs < timeMs[0]!) return undefined;
  let at = timeMs.length - 1;
  while (timeMs[at]! > tMs) at--;
  const next = timeMs[at + 1];
  if (next === undefined) return passedL[at];
  const fraction = (tMs - timeMs[at]!) / (next - timeMs[at]!);
  return passedL[at]! + fraction * (passedL[at + 1]! - passedL[at]!);
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
