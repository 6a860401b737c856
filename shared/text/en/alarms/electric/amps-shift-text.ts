/** Running current against its normal, in words: the part that `amps-high` and `amps-low` share. */
import type { ReasonFormat } from '../../reasons/format.ts';

export type AmpsShiftFigures = {
  nowA: number;
  normalA: number;
  /** A fraction of the normal, negative below it. */
  deviation: number;
  /** A step over so many runs; absent for a slow drift from the values learned first. */
  runs?: number;
  /**
   * May the supply voltage be the cause? `possible` as long as it is not measured and the shift is
   * small.
   */
  supply: 'possible' | 'excluded' | 'compensated';
};

/** "The pump draws 7.2 A, 10 % below its normal 8 A over the last 12 runs", without a period. */
export function shiftText(
  { nowA, normalA, deviation, runs }: AmpsShiftFigures,
  { amps, percent, count }: ReasonFormat,
): string {
  const since = runs === undefined ? 'since the first runs' : `over the last ${count(runs, 'run', 'runs')}`;
  return `The pump draws ${amps(nowA)}, ${percent(deviation)} ${deviation > 0 ? 'above' : 'below'} its normal ${amps(normalA)} ${since}`;
}

const SUPPLY_TEXT: Record<AmpsShiftFigures['supply'], string> = {
  possible: ' The supply voltage may be the cause; it is not measured here.',
  excluded: '',
  compensated: ' The currents are compared at one voltage.',
};

export function supplyText({ supply }: AmpsShiftFigures): string {
  return SUPPLY_TEXT[supply];
}
