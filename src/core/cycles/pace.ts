/**
 * How often a channel speaks, found from its own times: a steady period, or by exception (on
 * change, at least every 60 s). From it follows how long a reading is good: three periods, 90 s by
 * exception (contract, section 6, `heardS`).
 */
export interface Pace {
  lastMs: number;
  /** Median of the recent steps, ms; 0 until two readings came. */
  periodMs: number;
  byException: boolean;
  /** The last steps, ms, newest last; at most STEPS. */
  steps: number[];
  /** Readings since the steps were last looked through. */
  stepsSinceUpdate: number;
}

const MAX_STEPS = 24;
/**
 * Steps within this share of the median count as steady; fewer than two thirds steady is by
 * exception.
 */
const STEADY_TOLERANCE = 0.25;
const MIN_STEADY_FRACTION = 2 / 3;
/** Steady sampling is 0.1 Hz at the slowest (contract, section 2), and a quarter is allowed for. */
const SLOWEST_STEADY_MS = 12_500;
const MIN_STEPS_JUDGED = 6;
/** A hole in the data is no step of its rhythm. */
const MAX_STEP_MS = 61_000;
const BY_EXCEPTION_VALID_MS = 90_000;
const STEADY_PERIODS_VALID = 3;
/** Before a rhythm is known a reading is good for three of the slowest steady period, 10 s. */
const UNKNOWN_VALID_MS = 30_000;

export function newPace(): Pace {
  return { lastMs: -1, periodMs: 0, byException: false, steps: [], stepsSinceUpdate: 0 };
}

/** One room to sort in serves all channels in turn: nothing keeps a hold of it. */
const SORT_BUFFER = new Float64Array(MAX_STEPS);

function updatePeriod(pace: Pace): void {
  const { length } = pace.steps;
  const median = medianOf(pace.steps);
  let steady = 0;
  for (let i = 0; i < length; i++)
    if (Math.abs(pace.steps[i]! - median) <= STEADY_TOLERANCE * median) steady++;
  pace.periodMs = median;
  if (median > SLOWEST_STEADY_MS) pace.byException = true;
  else if (steady < MIN_STEADY_FRACTION * length) pace.byException = length >= MIN_STEPS_JUDGED;
  // A quiet hour looks steady too: only a full set of equal steps takes the verdict back.
  else if (steady === MAX_STEPS) pace.byException = false;
  pace.stepsSinceUpdate = 0;
}

/**
 * The upper of the middle ones. So few are sorted soonest by putting each in its place (insertion
 * sort).
 */
function medianOf(steps: readonly number[]): number {
  const { length } = steps;
  for (let i = 0; i < length; i++) {
    const step = steps[i]!;
    let at = i;
    for (; at > 0 && SORT_BUFFER[at - 1]! > step; at--) SORT_BUFFER[at] = SORT_BUFFER[at - 1]!;
    SORT_BUFFER[at] = step;
  }
  return SORT_BUFFER[length >> 1]!;
}

/**
 * Notes a reading at `tMs`; readings of one moment count once. Returns the step from the one
 * before, 0 where there was none.
 */
export function recordReadingTime(pace: Pace, tMs: number): number {
  const step = pace.lastMs < 0 ? 0 : tMs - pace.lastMs;
  if (pace.lastMs >= 0 && step <= 0) return 0;
  pace.lastMs = tMs;
  if (step <= 0 || step > MAX_STEP_MS) return step;
  if (!pace.byException && pace.steps.length === MAX_STEPS && Math.abs(step - pace.periodMs) <= 1)
    return step;
  pace.steps.push(step);
  if (pace.steps.length > MAX_STEPS) pace.steps.shift();
  pace.stepsSinceUpdate++;
  if (pace.steps.length <= 8 || pace.stepsSinceUpdate >= 4) updatePeriod(pace);
  return step;
}

/** How long a reading of this channel is good, ms. */
export function validForMs(pace: Pace): number {
  if (pace.byException) return BY_EXCEPTION_VALID_MS;
  return pace.periodMs > 0 ? STEADY_PERIODS_VALID * pace.periodMs : UNKNOWN_VALID_MS;
}

/** Readings over 3 s apart: the contract reads cut-in and cut-out from three readings then. */
export function isCoarse(pace: Pace): boolean {
  return !pace.byException && pace.periodMs > 3000;
}
