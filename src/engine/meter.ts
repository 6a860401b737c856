/**
 * A flow meter's litres: flow summed over time, with enough of the last minute kept to say how much had passed when a run started or
 * stopped that was believed a little later. The contract puts the meter at the pump: what passes in a run is what the pump lifted. A meter
 * behind the tank shows itself by what passes while the pump rests; then it counts the water used, and of a run it says nothing.
 */
export interface Meter {
  /** All that has passed, L; and readings of the last minute with what had passed at each. */
  litres: number;
  timeMs: number[];
  passed: number[];
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

const KEPT_MS = 60_000;
const TRIM_AT = 128;
const L_PER_M3 = 1000;
/** More than this share between runs is no pump's meter: a check valve that weeps passes nothing forwards. */
const MOST_AT_REST = 0.25;
const RUNS_TO_JUDGE = 3;
/** About the last thirty runs count. */
const FADES = 0.97;
/** A day with a tenth unmeasured has no total, as with pressure. */
const COVER_NEEDED = 0.9;

export function newMeter(): Meter {
  return {
    litres: 0,
    timeMs: [],
    passed: [],
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

/** One reading, m3/s. `goodMs`: how long a reading is good; `holds`: by exception a value stands until the next, else flow changes evenly between two. */
export function meterReading(
  meter: Meter,
  tMs: number,
  m3PerS: number,
  { goodMs, holds }: { goodMs: number; holds: boolean },
): void {
  const lPerS = Math.max(0, m3PerS * L_PER_M3);
  const stepMs = tMs - meter.lastMs;
  if (meter.lastMs >= 0 && stepMs > 0 && stepMs <= goodMs) {
    const mean = holds ? meter.lPerS : (meter.lPerS + lPerS) / 2;
    const passed = (mean * stepMs) / 1000;
    meter.litres += passed;
    meter.dayL += passed;
    meter.dayMs += stepMs;
  } else if (meter.lastMs >= 0 && stepMs > goodMs) {
    // What passed in a hole is not known, so nothing is said across it.
    meter.timeMs = [];
    meter.passed = [];
    meter.stoppedL = -1;
  }
  meter.lastMs = tMs;
  meter.lPerS = lPerS;
  meter.timeMs.push(tMs);
  meter.passed.push(meter.litres);
  if (meter.timeMs.length >= TRIM_AT) trim(meter, tMs - KEPT_MS);
}

function trim(meter: Meter, fromMs: number): void {
  let from = 0;
  while (from < meter.timeMs.length - 2 && meter.timeMs[from + 1]! < fromMs) from++;
  if (from === 0) return;
  meter.timeMs.splice(0, from);
  meter.passed.splice(0, from);
}

/** What had passed at `tMs`, L; undefined where that is not within what is kept. */
export function litresAt(meter: Meter, tMs: number): number | undefined {
  const { timeMs, passed } = meter;
  if (timeMs.length === 0 || tMs < timeMs[0]!) return undefined;
  let at = timeMs.length - 1;
  while (timeMs[at]! > tMs) at--;
  const next = timeMs[at + 1];
  if (next === undefined) return passed[at];
  const share = (tMs - timeMs[at]!) / (next - timeMs[at]!);
  return passed[at]! + share * (passed[at + 1]! - passed[at]!);
}

/** A run is over. `startL`: what had passed when it began. Returns what the pump lifted, L, where the meter can say. */
export function meterRun(meter: Meter, startL: number | undefined, stoppedMs: number): number | undefined {
  const stopL = litresAt(meter, stoppedMs);
  if (stopL === undefined || startL === undefined) {
    meter.stoppedL = stopL ?? -1;
    return undefined;
  }
  const liftedL = Math.max(0, stopL - startL);
  if (meter.stoppedL >= 0) {
    meter.restL = meter.restL * FADES + Math.max(0, startL - meter.stoppedL);
    meter.runL = meter.runL * FADES + liftedL;
    meter.runs++;
  }
  meter.stoppedL = stopL;
  return isBehindTank(meter) ? undefined : liftedL;
}

/** Does it count what the house takes, and not what the pump lifts? */
export function isBehindTank({ runs, restL, runL }: Meter): boolean {
  return runs >= RUNS_TO_JUDGE && restL > MOST_AT_REST * (restL + runL);
}

/** Ends the day: what passed in it, L; undefined where too little of it was measured. */
export function meterDay(meter: Meter, dayMs: number): number | undefined {
  const { dayL } = meter;
  const covered = meter.dayMs >= COVER_NEEDED * dayMs;
  meter.dayL = 0;
  meter.dayMs = 0;
  return covered ? dayL : undefined;
}
