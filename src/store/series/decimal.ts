/**
 * Sensors speak in decimal steps (0.01 A, 100 Pa), and whole numbers of steps are far smaller to
 * keep than doubles. This file finds a step with which every value of a list can be made again to
 * the last bit, or says that there is none. A node may send single floats (CBOR): then the value is
 * the single nearest to a whole number of steps, which is exact too.
 */
export interface Step {
  /** Values are `whole x down / up`, of which one is 1 and the other a power of ten. */
  decimals: number;
  up: number;
  down: number;
  /** The result is rounded to a single float. */
  single: boolean;
}

/** Larger whole numbers would lose bits when differences of them are taken. */
const MAX_INTEGER = 2 ** 50;

/** From thousands to millionths. */
const MIN_DECIMALS = -3;
const MAX_DECIMALS = 6;

function decimalSteps(single: boolean): readonly Step[] {
  return Array.from({ length: MAX_DECIMALS - MIN_DECIMALS + 1 }, (_, i) => {
    const decimals = MIN_DECIMALS + i;
    return { decimals, up: 10 ** Math.max(0, decimals), down: 10 ** Math.max(0, -decimals), single };
  });
}

const DOUBLES = decimalSteps(false);
const SINGLES = decimalSteps(true);

/** @throws RangeError where there is no such step: the bytes that name it are damaged. */
export function stepOf(decimals: number, single: boolean): Step {
  const step = (single ? SINGLES : DOUBLES)[decimals - MIN_DECIMALS];
  if (!step) throw new RangeError(`Cannot read values: there is no step of ${decimals} decimals`);
  return step;
}

export function toInteger(value: number, step: Step): number {
  return Math.round((value * step.up) / step.down);
}

export function fromInteger(integer: number, step: Step): number {
  const value = (integer * step.down) / step.up;
  return step.single ? Math.fround(value) : value;
}

function isExact(value: number, step: Step): boolean {
  const whole = toInteger(value, step);
  // A whole number of steps has no negative zero.
  return fromInteger(whole, step) === value && (value !== 0 || Object.is(value, 0));
}

/** The coarsest step of one kind, by one walk: what is exact in tenths is exact in hundredths. */
function coarsestExactStep(
  steps: readonly Step[],
  values: ArrayLike<number>,
  n: number,
  faults: ArrayLike<number> | undefined,
): Step | undefined {
  let at = 0;
  let largest = 0;
  let step = steps[0]!;
  for (let i = 0; i < n; i++) {
    if (faults && faults[i] !== 0) continue;
    const value = values[i]!;
    while (!isExact(value, step)) {
      at += 1;
      const finer = steps[at];
      if (!finer) return undefined;
      step = finer;
    }
    const size = value < 0 ? -value : value;
    if (size > largest) largest = size;
  }
  return toInteger(largest, step) <= MAX_INTEGER ? step : undefined;
}

/**
 * The coarsest step that makes all first `n` values again exactly; those at which `faults` is not 0
 * are left out (they are NaN).
 * @returns undefined where no step does: then the doubles are kept as they are.
 */
export function findStep(values: ArrayLike<number>, n: number, faults?: ArrayLike<number>): Step | undefined {
  return coarsestExactStep(DOUBLES, values, n, faults) ?? coarsestExactStep(SINGLES, values, n, faults);
}
