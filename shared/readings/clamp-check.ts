/**
 * Does the clamp agree with a meter that somebody held to the same conductor? Two instruments agree
 * where they are no further apart than the better of common clamp meters promises, 2 % of what it
 * shows, and one step of each (common practice, no source).
 */
import { parseQuantity } from '../quantity/parse-quantity.ts';

export type ClampCheck =
  | {
      is: 'agrees' | 'off';
      meterA: number;
      clampA: number;
      differenceA: number;
      differenceRatio: number;
      allowedA: number;
    }
  /** The rule that what was written breaks. */
  | { is: 'no-meter'; problem: string };

const TOLERANCE_RATIO = 0.02;
/** Meters show a tenth or a hundredth; a tenth where the writing does not tell. */
const DEFAULT_STEP_A = 0.1;

/**
 * `meter` as it was written, "7.9 A"; `clampA` as Stillwell has it; `stepA` the node's resolution,
 * where known.
 */
export function checkClamp(meter: string, clampA: number, stepA = 0): ClampCheck {
  const read = parseQuantity(meter, 'current');
  if ('problem' in read) return { is: 'no-meter', problem: read.problem };
  const meterA = read.si;
  const allowedA = TOLERANCE_RATIO * Math.abs(meterA) + meterStepA(meter) + stepA;
  const differenceA = clampA - meterA;
  const differenceRatio = meterA === 0 ? 0 : differenceA / meterA;
  return {
    is: Math.abs(differenceA) <= allowedA ? 'agrees' : 'off',
    meterA,
    clampA,
    differenceA,
    differenceRatio,
    allowedA,
  };
}

/** One step of the last digit that was written: 7.90 was read on a finer display than 7.9. */
function meterStepA(written: string): number {
  const decimals = /\.(\d+)/.exec(written)?.[1]?.length;
  return decimals === undefined ? (/\d/.test(written) ? 1 : DEFAULT_STEP_A) : 10 ** -decimals;
}
