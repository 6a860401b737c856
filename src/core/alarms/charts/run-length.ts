/**
 * From "so many false alarms a year" to a limit: average run lengths (ARL) of CUSUM and EWMA
 * charts, zero-state, independent normal data with known parameters. CUSUM by the Markov chain of
 * Brook & Evans 1972, with Siegmund's closed form for finding limits fast; EWMA by the same chain
 * (Lucas & Saccucci 1990). Published tables beside the tests. Data that hang together
 * (autocorrelation) and baselines that were estimated shorten these:
 * src/core/alarms/charts/false-alarm-budget.ts allows for it.
 */

/** States of the chain: 120 put published figures within 0.5 %. */
const STATES = 120;

/**
 * Standard normal distribution function; Abramowitz & Stegun 7.1.26 is too coarse in the tails, so
 * by erfc of Numerical Recipes (1.2e-7 relative).
 */
export function normalCdf(x: number): number {
  const z = Math.abs(x) / Math.SQRT2;
  const t = 1 / (1 + 0.5 * z);
  const poly =
    -1.26551223 +
    t *
      (1.00002368 +
        t *
          (0.37409196 +
            t *
              (0.09678418 +
                t *
                  (-0.18628806 +
                    t *
                      (0.27886807 +
                        t * (-1.13520398 + t * (1.48851587 + t * (-0.82215223 + t * 0.17087277))))))));
  const half = 0.5 * t * Math.exp(-z * z + poly);
  return x < 0 ? half : 1 - half;
}

/** The standard normal deviate that is exceeded once in `arl` values. */
function deviateOnceIn(arl: number): number {
  let low = 0;
  let high = 10;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (normalCdf(-middle) * arl > 1) low = middle;
    else high = middle;
  }
  return high;
}

/** The standard error of a median of n values is this x sigma / sqrt(n) (normal data, large n). */
const MEDIAN_ERROR = 1.2533;

/**
 * How many values the median must be of, so that chance puts it `limit` sigma off no more often
 * than once in `arl` values. What it is held against is the median of `learnedFrom` values and errs
 * too (0: it was not learned). Infinity where no number is enough.
 */
export function medianSize({
  limit,
  arl,
  learnedFrom,
}: {
  limit: number;
  arl: number;
  learnedFrom: number;
}): number {
  const variance =
    (limit / (MEDIAN_ERROR * deviateOnceIn(arl))) ** 2 - (learnedFrom === 0 ? 0 : 1 / learnedFrom);
  return variance <= 0 ? Infinity : Math.ceil(1 / variance);
}

/**
 * ARL of a one-sided CUSUM that starts at `start`: k and h in sigma, `shift` in sigma of the
 * plotted statistic. The interval
 * [0, h] is cut in STATES + 1 pieces, the lowest half as wide and holding 0.
 */
export function cusumArl({
  k,
  h,
  shift,
  start = 0,
}: {
  k: number;
  h: number;
  shift: number;
  start?: number;
}): number {
  const width = (2 * h) / (2 * STATES + 1);
  const stay = Array.from({ length: STATES + 1 }, (_, from) => {
    const row = new Float64Array(STATES + 1);
    for (let to = 0; to <= STATES; to++) {
      const above = normalCdf((to - from + 0.5) * width + k - shift);
      const below = to === 0 ? 0 : normalCdf((to - from - 0.5) * width + k - shift);
      row[to] = above - below;
    }
    return row;
  });
  const arls = meanSteps(stay);
  return arls[Math.min(STATES, Math.round(start / width))] ?? 1;
}

/**
 * Siegmund's approximation of the one-sided ARL (Siegmund 1985; Montgomery): within about 3 % of
 * the chain for h of 3 and more.
 */
export function siegmundArl({ k, h, shift }: { k: number; h: number; shift: number }): number {
  const drift = shift - k;
  const b = h + 1.166;
  if (Math.abs(drift) < 1e-6) return b * b;
  return (Math.exp(-2 * drift * b) + 2 * drift * b - 1) / (2 * drift * drift);
}

/**
 * Siegmund's form is long by up to 7 % for k up to 1 (tests/core/alarms/charts.test.ts): by so much
 * more is asked of it.
 */
const SIEGMUND_CORRECTION = 1.07;

/**
 * The limit h, in sigma, at which a one-sided CUSUM with reference k gives a false alarm once in
 * `arl` values or a little more. By bisection of Siegmund's form.
 */
export function cusumLimit(k: number, arl: number): number {
  let low = 0;
  let high = 50;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (siegmundArl({ k, h: middle, shift: 0 }) < SIEGMUND_CORRECTION * arl) low = middle;
    else high = middle;
  }
  return high;
}

/** ARL of a two-sided EWMA chart with limits at +- `width` sigma of the settled mean. */
export function ewmaArl(
  { lambda, width, shift }: { lambda: number; width: number; shift: number },
  states = STATES + 1,
): number {
  const limit = width * Math.sqrt(lambda / (2 - lambda));
  const step = (2 * limit) / states;
  const center = (at: number): number => -limit + (at + 0.5) * step;
  const stay = Array.from({ length: states }, (_, from) => {
    const row = new Float64Array(states);
    for (let to = 0; to < states; to++) {
      const upper = (center(to) + step / 2 - (1 - lambda) * center(from)) / lambda - shift;
      const lower = (center(to) - step / 2 - (1 - lambda) * center(from)) / lambda - shift;
      row[to] = normalCdf(upper) - normalCdf(lower);
    }
    return row;
  });
  return meanSteps(stay)[(states - 1) / 2] ?? 1;
}

/**
 * A width is searched with fewer states: within 1 % of the run length for lambda of 0.1 and more.
 * Odd, so that one holds 0.
 */
const SEARCH_STATES = 61;
/** Widths found so far: a pure memory of a costly sum. Keys are rounded, so that there are few. */
const WIDTH_CACHE = new Map<string, number>();

/**
 * The width L of an EWMA chart that gives a false alarm once in `arl` values or a little more (the
 * next tenth of a decade).
 */
export function ewmaWidth(lambda: number, arl: number): number {
  const tenth = Math.ceil(10 * Math.log10(arl) - 1e-9);
  const key = `${lambda.toFixed(3)}/${tenth}`;
  const known = WIDTH_CACHE.get(key);
  if (known !== undefined) return known;
  const wanted = 10 ** (tenth / 10);
  let low = 0.5;
  let high = 6;
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (ewmaArl({ lambda, width: middle, shift: 0 }, SEARCH_STATES) < wanted) low = middle;
    else high = middle;
  }
  WIDTH_CACHE.set(key, high);
  return high;
}

/**
 * Mean number of steps until the chain leaves its transient states, from each: solves (I - Q) m = 1
 * by elimination.
 */
function meanSteps(stay: readonly Float64Array[]): Float64Array {
  const n = stay.length;
  const rows = stay.map((row, at) => {
    const left = new Float64Array(n + 1);
    for (let to = 0; to < n; to++) left[to] = (to === at ? 1 : 0) - (row[to] ?? 0);
    left[n] = 1;
    return left;
  });
  for (let pivot = 0; pivot < n; pivot++) eliminate(rows, pivot, n);
  const means = new Float64Array(n);
  for (let at = n - 1; at >= 0; at--) {
    const row = rows[at]!;
    let sum = row[n]!;
    for (let to = at + 1; to < n; to++) sum -= row[to]! * means[to]!;
    means[at] = sum / row[at]!;
  }
  return means;
}

/** I - Q of a chain that can leave is an M-matrix: it needs no pivoting. */
function eliminate(rows: readonly Float64Array[], pivot: number, n: number): void {
  const top = rows[pivot]!;
  for (let at = pivot + 1; at < n; at++) {
    const row = rows[at]!;
    const factor = row[pivot]! / top[pivot]!;
    if (factor === 0) continue;
    for (let to = pivot; to <= n; to++) row[to] = row[to]! - factor * top[to]!;
  }
}
