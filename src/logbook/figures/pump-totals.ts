/**
 * How often and how long a pump started and ran since it was installed, as far as it was watched:
 * starts, hours and water age it, more than the years. Days without a count are told beside it.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import type { PumpTotals } from '../../../shared/api/figures/figures.ts';

/** `days` of the well, oldest first; `installed` as the card has it, a year alone too. */
export function pumpTotals(
  days: readonly DayEvent[],
  pump: string,
  installed: string | undefined,
): PumpTotals | undefined {
  const own = days.filter((day) => (day.pump ?? 'p1') === pump && isSince(day.date, installed));
  const counted = own.filter(({ cycles, ranS }) => cycles !== undefined && ranS !== undefined);
  const first = own[0];
  if (!first || counted.length === 0) return undefined;
  const sum = (of: (day: DayEvent) => number): number => counted.reduce((total, day) => total + of(day), 0);
  return {
    since: first.date,
    starts: sum(({ cycles = 0 }) => cycles),
    ranS: sum(({ ranS = 0 }) => ranS),
    uncountedDays: own.length - counted.length,
    ...(installed !== undefined && { installed }),
  };
}

function isSince(date: string, installed: string | undefined): boolean {
  return installed === undefined || date.slice(0, installed.length) >= installed;
}
