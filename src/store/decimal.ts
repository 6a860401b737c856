/**
 * Sensors speak in decimal steps (0.01 A, 100 Pa), and whole numbers of steps are far smaller to keep than doubles. This file
 * finds a step with which every value of a list can be made again to the last bit, or says that there is none. A node may send
 * single floats (CBOR): then the value is the single nearest to a whole number of steps, which is exact too.
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
const MAX_WHOLE = 2 ** 50;

/** From thousands to millionths. */
const COARSEST = -3;
const FINEST = 6;

function stepsOf(single: boolean): readonly Step[] {
  return Array.from({ length: FINEST - COARSEST + 1 }, (_, i) => {
    const decimals = COARSEST + i;
    return { decimals, up: 10 ** Math.max(0, decimals), down: 10 ** Math.max(0, -decimals), single };
  });
}

const DOUBLES = stepsOf(false);
const SINGLES = stepsOf(true);

/** @throws RangeError where there is no such step: the bytes that name it are damaged. */
export function stepOf(decimals: number, single: boolean): Step {
  const step = (single ? SINGLES : DOUBLES)[decimals - COARSEST];
  if (!step) throw new RangeError(`Cannot read values: there is no step of ${decimals} decimals`);
  return step;
}

export function toWhole(value: number, step: Step): number {
  return Math.round((value * step.up) / step.down);
}

export function fromWhole(whole: number, step: Step): number {
  const value = (whole * step.down) / step.up;
  return step.single ? Math.fround(value) : value;
}

function isExact(value: number, step: Step): boolean {
  const whole = toWhole(value, step);
  // A whole number of steps has no negative zero.
  return fromWhole(whole, step) === value && (value !== 0 || Object.is(value, 0));
}

/** The coarsest step of one kind, by one walk: what is exact in tenths is exact in hundredths. */
function findOfKind(
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
  return toWhole(largest, step) <= MAX_WHOLE ? step : undefined;
}

/**
 * The coarsest step that makes all first `n` values again exactly; those at which `faults` is not 0 are left out (they are NaN).
 * @returns undefined where no step does: then the doubles are kept as they are.
 */
export function findStep(values: ArrayLike<number>, n: number, faults?: ArrayLike<number>): Step | undefined {
  return findOfKind(DOUBLES, values, n, faults) ?? findOfKind(SINGLES, values, n, faults);
}
