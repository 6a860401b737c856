/**
 * A rate summed over time (flow to liters, watts to energy), with enough of the last minutes kept
 * to say how much had passed when a run started or stopped that was believed a little later.
 */
export interface RunningSum {
  /** All that has passed; and readings of the last minutes with what had passed at each. */
  total: number;
  timeMs: number[];
  passed: number[];
  lastMs: number;
  rate: number;
}

/** How a reading stands for the time around it. */
export interface Reach {
  /** How long a reading is good, ms. */
  goodMs: number;
  /**
   * `between`: the rate changes evenly from one reading to the next; `after`: it stands until the
   * next; `before`: it is the mean of the time since the one before.
   */
  covers: 'between' | 'after' | 'before';
}

const TRIM_AT = 128;

export function newRunningSum(): RunningSum {
  return { total: 0, timeMs: [], passed: [], lastMs: -1, rate: 0 };
}

/**
 * One reading, in units a second; `historyMs` is how much is kept. Returns what passed since the
 * one before; undefined across a hole, over which nothing is known.
 */
export function addRate(
  sum: RunningSum,
  tMs: number,
  rate: number,
  { goodMs, covers, historyMs }: Reach & { historyMs: number },
): number | undefined {
  const stepMs = tMs - sum.lastMs;
  let passed: number | undefined;
  if (sum.lastMs >= 0 && stepMs > 0 && stepMs <= goodMs) {
    passed = (meanRate(sum.rate, rate, covers) * stepMs) / 1000;
    sum.total += passed;
  } else if (sum.lastMs >= 0 && stepMs > goodMs) {
    sum.timeMs = [];
    sum.passed = [];
  }
  sum.lastMs = tMs;
  sum.rate = rate;
  sum.timeMs.push(tMs);
  sum.passed.push(sum.total);
  if (sum.timeMs.length >= TRIM_AT) trim(sum, tMs - historyMs);
  return passed;
}

function meanRate(before: number, now: number, covers: Reach['covers']): number {
  switch (covers) {
    case 'between':
      return (before + now) / 2;
    case 'after':
      return before;
    case 'before':
      return now;
    default:
      return covers satisfies never;
  }
}

function trim(sum: RunningSum, fromMs: number): void {
  let from = 0;
  while (from < sum.timeMs.length - 2 && sum.timeMs[from + 1]! < fromMs) from++;
  if (from === 0) return;
  sum.timeMs.splice(0, from);
  sum.passed.splice(0, from);
}

/** What had passed at `tMs`; undefined where that is not within what is kept. */
export function passedAt({ timeMs, passed }: RunningSum, tMs: number): number | undefined {
  if (timeMs.length === 0 || tMs < timeMs[0]!) return undefined;
  let at = timeMs.length - 1;
  while (timeMs[at]! > tMs) at--;
  const next = timeMs[at + 1];
  if (next === undefined) return passed[at];
  const fraction = (tMs - timeMs[at]!) / (next - timeMs[at]!);
  return passed[at]! + fraction * (passed[at + 1]! - passed[at]!);
}
