/**
 * When the cold season begins on a site, by what its own sensor measured over the last year: the
 * first of two cold days close together after the longest time without any. One cold reading alone
 * says nothing: a door stood open, or a sensor slipped. Cold is 40 F (4.4 C), at which the watch
 * for frost warns too (common practice, no source).
 */
import { addDays, daysBetween } from './dates.ts';

export interface MeasuredDay {
  /** ISO date. */
  date: string;
  minC: number;
}

export type ColdSeason =
  /** `firstColdDate`: the day; `prepareByDay`: month and day by which all must be ready. */
  | { is: 'seasonal'; firstColdDate: string; prepareByDay: string }
  /** A whole year without a cold day. */
  | { is: 'never'; minC: number };

const COLD_C = 4.4;
/** Ten months: without them nobody knows whether the cold season was seen. */
const MIN_DAYS = 300;
const MIN_WARM_GAP_DAYS = 60;
const CONFIRM_WITHIN_DAYS = 14;
/** Time to get an electrician and insulation (common practice, no source). */
const PREPARATION_DAYS = 30;

/**
 * Days oldest first, those of which nothing is known left out; undefined where too few are known.
 */
export function findColdSeason(days: readonly MeasuredDay[]): ColdSeason | undefined {
  if (days.length < MIN_DAYS) return undefined;
  const cold = days.filter(({ minC }) => minC < COLD_C);
  if (cold.length === 0) return { is: 'never', minC: Math.min(...days.map(({ minC }) => minC)) };
  const coldOn = firstColdAfterWarm(
    cold.map(({ date }) => date),
    addDays(days[0]?.date ?? '', -1),
  );
  if (coldOn === undefined) return undefined;
  const readyBy = addDays(coldOn, -PREPARATION_DAYS).slice(5);
  // A day that is not in every year gives way to the one before it.
  return { is: 'seasonal', firstColdDate: coldOn, prepareByDay: readyBy === '02-29' ? '02-28' : readyBy };
}

/**
 * The cold day after the longest warmth. A mild autumn has weeks without one in it, and its first
 * ones still count.
 */
function firstColdAfterWarm(cold: readonly string[], before: string): string | undefined {
  const sure = cold.filter((on, at) => isConfirming(cold[at - 1], on) || isConfirming(on, cold[at + 1]));
  const gaps = sure.map((on, at) => ({ on, days: daysBetween(sure[at - 1] ?? before, on) }));
  const longest = gaps.toSorted((x, y) => y.days - x.days)[0];
  return longest !== undefined && longest.days > MIN_WARM_GAP_DAYS ? longest.on : undefined;
}

function isConfirming(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && daysBetween(one, other) <= CONFIRM_WITHIN_DAYS;
}
