/**
 * Sensors speak in decimal steps (0.01 A, 100 Pa), and whole numbers of steps are far smaller to keep than doubles. This file
 * finds a step with which every value of a list can be made again to the last bit, or says that there is none. A node may send
 * single floats (CBOR): then the value is the single nearest to a whole number of steps, which is exact too.
 */
export interface Step {
  /** Values are `whole / 10^decimals`; negative: `whole x 10^-decimals`. */
  decimals: number;
  /** The result is rounded to a single float. */
  single: boolean;
}

/** Larger whole numbers would lose bits when differences of them are taken. */
const MAX_WHOLE = 2 ** 50;

/** Tried in this order: from coarse to fine, so that the whole numbers are the smallest. */
const DECIMALS = [-3, -2, -1, 0, 1, 2, 3, 4, 5, 6] as const;

export function toWhole(value: number, step: Step): number {
  return step.decimals >= 0
    ? Math.round(value * 10 ** step.decimals)
    : Math.round(value / 10 ** -step.decimals);
}

export function fromWhole(whole: number, step: Step): number {
  const value = step.decimals >= 0 ? whole / 10 ** step.decimals : whole * 10 ** -step.decimals;
  return step.single ? Math.fround(value) : value;
}

function isExact(value: number, step: Step): boolean {
  const whole = toWhole(value, step);
  // `Object.is` tells -0 from 0: a whole number of steps has no negative zero.
  return Math.abs(whole) <= MAX_WHOLE && Object.is(fromWhole(whole, step) + 0, value);
}

/** The coarsest step of one kind, by one walk: what is exact in tenths is exact in hundredths. */
function findOfKind(
  values: ArrayLike<number>,
  n: number,
  faults: ArrayLike<number> | undefined,
  single: boolean,
): Step | undefined {
  let at = 0;
  let largest = 0;
  let step: Step = { decimals: DECIMALS[0], single };
  for (let i = 0; i < n; i++) {
    if (faults && faults[i] !== 0) continue;
    const value = values[i]!;
    while (!isExact(value, step)) {
      at += 1;
      const decimals = DECIMALS[at];
      if (decimals === undefined) return undefined;
      step = { decimals, single };
    }
    if (Math.abs(value) > largest) largest = Math.abs(value);
  }
  return Math.abs(toWhole(largest, step)) <= MAX_WHOLE ? step : undefined;
}

/**
 * The coarsest step that makes all first `n` values again exactly; those at which `faults` is not 0 are left out (they are NaN).
 * @returns undefined where no step does: then the doubles are kept as they are.
 */
export function findStep(values: ArrayLike<number>, n: number, faults?: ArrayLike<number>): Step | undefined {
  return findOfKind(values, n, faults, false) ?? findOfKind(values, n, faults, true);
}
