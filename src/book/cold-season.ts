/**
 * When the cold season begins on a site, by what its own sensor measured over the last year: the first of two cold days close together
 * after the longest time without any. One cold reading alone says nothing: a door stood open, or a sensor slipped. Cold is 40 F (4.4 C), at
 * which the watch for frost warns too (common practice, no source).
 */
import { addDays, daysBetween } from './days.ts';

export interface MeasuredDay {
  /** ISO date. */
  on: string;
  lowC: number;
}

export type ColdSeason =
  /** `coldOn`: the day; `readyBy`: month and day by which all must be ready. */
  | { is: 'from'; coldOn: string; readyBy: string }
  /** A whole year without a cold day. */
  | { is: 'never'; lowestC: number };

const COLD_C = 4.4;
/** Ten months: without them nobody knows whether the cold season was seen. */
const ENOUGH_DAYS = 300;
const PAUSE_DAYS = 60;
const NEAR_DAYS = 14;
/** Time to get an electrician and insulation (common practice, no source). */
const AHEAD_DAYS = 30;

/** Days oldest first, those of which nothing is known left out; undefined where too few are known. */
export function coldSeason(days: readonly MeasuredDay[]): ColdSeason | undefined {
  if (days.length < ENOUGH_DAYS) return undefined;
  const cold = days.filter(({ lowC }) => lowC < COLD_C);
  if (cold.length === 0) return { is: 'never', lowestC: Math.min(...days.map(({ lowC }) => lowC)) };
  const coldOn = afterWarmth(
    cold.map(({ on }) => on),
    addDays(days[0]?.on ?? '', -1),
  );
  if (coldOn === undefined) return undefined;
  const readyBy = addDays(coldOn, -AHEAD_DAYS).slice(5);
  // A day that is not in every year gives way to the one before it.
  return { is: 'from', coldOn, readyBy: readyBy === '02-29' ? '02-28' : readyBy };
}

/** The cold day after the longest warmth. A mild autumn has weeks without one in it, and its first ones still count. */
function afterWarmth(cold: readonly string[], before: string): string | undefined {
  const sure = cold.filter((on, at) => isNear(cold[at - 1], on) || isNear(on, cold[at + 1]));
  const gaps = sure.map((on, at) => ({ on, days: daysBetween(sure[at - 1] ?? before, on) }));
  const longest = gaps.toSorted((x, y) => y.days - x.days)[0];
  return longest !== undefined && longest.days > PAUSE_DAYS ? longest.on : undefined;
}

function isNear(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && daysBetween(one, other) <= NEAR_DAYS;
}
