/**
 * What is kept of a reading is how far it lies from what its neighbours before it let one expect. A
 * noisy but slow quantity is best expected by a smoothed level (the last value alone would count
 * its own noise twice), a ramp by a level with a slope: both are an alpha-beta filter. A block
 * tries several and keeps the best; where none is best all along (rest, then a run), the last
 * predictor runs three side by side and goes by the one that did best lately. Encoder and decoder
 * run the same arithmetic on the same numbers, so the result is exact (IEEE 754, no Math.exp).
 */
interface AlphaBetaFilter {
  /** Share of the last surprise that goes into the level, and into the slope. */
  level: number;
  slope: number;
}

/**
 * Measured on pressure and current at 1 s and 5 s: noise from 0.5 to 30 steps, ramps from 10 to 60
 * steps a reading.
 */
const FILTERS: readonly AlphaBetaFilter[] = [
  // Nothing is expected: a current that rests at one level and runs at another is best kept as it
  // is.
  { level: 0, slope: 0 },
  // The last number itself.
  { level: 1, slope: 0 },
  { level: 0.5, slope: 0 },
  { level: 0.25, slope: 0 },
  { level: 0.06, slope: 0 },
  { level: 0.5, slope: 0.1 },
  { level: 0.25, slope: 0.02 },
];

/** Places in the list above that have a shorter loop of their own. */
const NO_PREDICTION = 0;
const LAST_VALUE = 1;
export const PREDICTOR_COUNT = FILTERS.length + 1;
const ADAPTIVE = FILTERS.length;

/**
 * A residual larger than this many typical ones is a step (a pump starts): the filter begins anew
 * there.
 */
const STEP_FACTOR = 8;
/** The typical residual is a mean over about this many readings. */
const ERROR_SMOOTHING = 1 / 16;

/**
 * Writes into `to` how far the first `n` numbers of `from` lie from what is expected: 0 at first.
 */
export function computeResiduals(predictor: number, from: Float64Array, to: Float64Array, n: number): void {
  if (predictor === NO_PREDICTION) to.set(from.subarray(0, n));
  else if (predictor === ADAPTIVE) adaptivePrediction(from, to, n, false);
  else filterResiduals(FILTERS[predictor]!, from, to, n);
}

/** Turns the first `n` residuals back into the numbers, in place. */
export function restoreValues(predictor: number, list: Float64Array, n: number): void {
  if (predictor === NO_PREDICTION) return;
  if (predictor === ADAPTIVE) adaptivePrediction(list, list, n, true);
  else if (predictor === LAST_VALUE) restoreLastValue(list, n);
  else restoreFiltered(FILTERS[predictor]!, list, n);
}

function restoreLastValue(list: Float64Array, n: number): void {
  let before = 0;
  for (let i = 0; i < n; i++) {
    before += list[i]!;
    list[i] = before;
  }
}

function filterResiduals(filter: AlphaBetaFilter, from: Float64Array, to: Float64Array, n: number): void {
  const { level: a, slope: b } = filter;
  let level = 0;
  let slope = 0;
  let typicalError = 1;
  for (let i = 0; i < n; i++) {
    const expected = level + slope;
    const value = from[i]!;
    to[i] = value - Math.floor(expected + 0.5);
    const off = value - expected;
    const size = off < 0 ? -off : off;
    if (size > STEP_FACTOR * typicalError + STEP_FACTOR) {
      level = value;
      slope = 0;
    } else {
      level = expected + a * off;
      slope += b * off;
      typicalError += (size - typicalError) * ERROR_SMOOTHING;
    }
  }
}

/**
 * The loop of `filterResiduals` the other way: apart from it because it is what reading a month
 * waits for.
 */
function restoreFiltered(filter: AlphaBetaFilter, list: Float64Array, n: number): void {
  const { level: a, slope: b } = filter;
  let level = 0;
  let slope = 0;
  let typicalError = 1;
  for (let i = 0; i < n; i++) {
    const expected = level + slope;
    const value = list[i]! + Math.floor(expected + 0.5);
    list[i] = value;
    const off = value - expected;
    const size = off < 0 ? -off : off;
    if (size > STEP_FACTOR * typicalError + STEP_FACTOR) {
      level = value;
      slope = 0;
    } else {
      level = expected + a * off;
      slope += b * off;
      typicalError += (size - typicalError) * ERROR_SMOOTHING;
    }
  }
}

/** For rest with some noise, for long quiet, and for the ramps of runs. */
const FAST = 0.5;
const SLOW = 0.05;
const RAMP = 0.7;
const RAMP_SLOPE = 0.3;
/** How fast it is forgotten how well each did. */
const SCORE_SMOOTHING = 0.1;

/**
 * Both ways in one loop, so that the long arithmetic stands once; numbers of their own, since
 * arrays of three cost twice the time.
 */
function adaptivePrediction(from: Float64Array, to: Float64Array, n: number, decode: boolean): void {
  let swift = 0;
  let slow = 0;
  let ramp = 0;
  let slope = 0;
  let swiftOff = 1;
  let slowOff = 1;
  let rampOff = 1;
  let typicalError = 1;
  for (let i = 0; i < n; i++) {
    const rampNext = ramp + slope;
    let expected = swift;
    if (slowOff < swiftOff) expected = rampOff < slowOff ? rampNext : slow;
    else if (rampOff < swiftOff) expected = rampNext;
    const whole = Math.floor(expected + 0.5);
    const given = from[i]!;
    const value = decode ? given + whole : given;
    to[i] = decode ? value : value - whole;
    const limit = STEP_FACTOR * typicalError + STEP_FACTOR;
    const size = Math.abs(value - expected);
    swiftOff += (Math.min(Math.abs(value - swift), limit) - swiftOff) * SCORE_SMOOTHING;
    slowOff += (Math.min(Math.abs(value - slow), limit) - slowOff) * SCORE_SMOOTHING;
    rampOff += (Math.min(Math.abs(value - rampNext), limit) - rampOff) * SCORE_SMOOTHING;
    if (size > limit) {
      swift = value;
      slow = value;
      ramp = value;
      slope = 0;
    } else {
      typicalError += (size - typicalError) * ERROR_SMOOTHING;
      swift += FAST * (value - swift);
      slow += SLOW * (value - slow);
      const off = value - rampNext;
      ramp = rampNext + RAMP * off;
      slope += RAMP_SLOPE * off;
    }
  }
}
