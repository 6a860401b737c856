/**
 * A weighted median of very many readings in little room. Values are held as whole steps, 1 mA at
 * first; where a run shows more than 512 different ones the step doubles, so the median of an
 * ordinary clamp (0.01 A) is exact and that of any other is within half a step of it.
 */
export interface Tally {
  /** Width of one step, A. */
  step: number;
  /** Distinct steps in rising order, and the weight of each. */
  keys: number[];
  weights: number[];
  /** Sum of all weights. */
  total: number;
}

const FIRST_STEP_A = 0.001;
const MAX_KEYS = 512;

export function newTally(): Tally {
  return { step: FIRST_STEP_A, keys: [], weights: [], total: 0 };
}

/** Where `key` stands, or would stand, in the rising list. */
function insertionIndex(keys: number[], key: number): number {
  let low = 0;
  let high = keys.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (keys[middle]! < key) low = middle + 1;
    else high = middle;
  }
  return low;
}

function coarsen(tally: Tally): void {
  const keys: number[] = [];
  const weights: number[] = [];
  for (const [at, key] of tally.keys.entries()) {
    const half = Math.floor(key / 2);
    if (keys.length > 0 && keys[keys.length - 1] === half) weights[weights.length - 1]! += tally.weights[at]!;
    else {
      keys.push(half);
      weights.push(tally.weights[at]!);
    }
  }
  tally.step *= 2;
  tally.keys = keys;
  tally.weights = weights;
}

/** Counts one value with its weight (1 for a reading, seconds for a value that held). */
export function addToTally(tally: Tally, value: number, weight: number): void {
  if (weight <= 0) return;
  const key = Math.round(value / tally.step);
  const at = insertionIndex(tally.keys, key);
  if (tally.keys[at] === key) tally.weights[at]! += weight;
  else {
    tally.keys.splice(at, 0, key);
    tally.weights.splice(at, 0, weight);
    if (tally.keys.length > MAX_KEYS) coarsen(tally);
  }
  tally.total += weight;
}

/**
 * The weighted median; of an even count of equal weights the mean of the middle two. Absent where
 * nothing was counted.
 */
export function tallyMedian(tally: Tally): number | undefined {
  if (tally.total <= 0) return undefined;
  const half = tally.total / 2;
  let below = 0;
  for (const [at, key] of tally.keys.entries()) {
    below += tally.weights[at]!;
    if (below > half) return round6(key * tally.step);
    if (below === half) return round6(((key + (tally.keys[at + 1] ?? key)) / 2) * tally.step);
  }
  return undefined;
}

function round6(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
