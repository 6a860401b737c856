/**
 * Water pumped by month and calendar year, for permits: the sum of the days that have a total, and
 * how many have none. A day that was not measured counts as missing and never as nothing pumped, so
 * a sum with gaps is a least.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import type { WaterPeriod, WaterYear } from '../../../shared/api/figures/figures.ts';
import { addDays } from '../due/dates.ts';

export interface TotalsInput {
  /** Of all pumps, oldest first. */
  days: readonly DayEvent[];
  /** ISO date there; its day is not over and does not count. */
  today: string;
  allowedL?: number;
}

/** Newest year first, each with its months in order. */
export function waterTotals({ days, today, allowedL }: TotalsInput): WaterYear[] {
  const used = usedByDay(days);
  const first = days[0]?.date;
  if (first === undefined || used.size === 0) return [];
  const years = new Map<string, Map<string, WaterPeriod>>();
  for (let date = first; date < today; date = addDays(date, 1)) {
    const [year, month] = [date.slice(0, 4), date.slice(0, 7)];
    const months = years.get(year) ?? new Map<string, WaterPeriod>();
    const period = months.get(month) ?? { period: month, usedL: 0, days: 0, missingDays: 0 };
    const litres = used.get(date);
    if (litres === undefined) period.missingDays++;
    else period.usedL += litres;
    period.days++;
    months.set(month, period);
    years.set(year, months);
  }
  return [...years].map(([year, months]) => yearOf(year, [...months.values()], allowedL)).toReversed();
}

function yearOf(period: string, months: WaterPeriod[], allowedL: number | undefined): WaterYear {
  const sum = (of: (month: WaterPeriod) => number): number =>
    months.reduce((total, month) => total + of(month), 0);
  const usedL = sum((month) => month.usedL);
  return {
    period,
    usedL,
    days: sum((month) => month.days),
    missingDays: sum((month) => month.missingDays),
    months,
    ...(allowedL !== undefined && { allowedRatio: usedL / allowedL }),
  };
}

/** By ISO date. Of several pumps the day of the whole well counts, where it has a total. */
function usedByDay(days: readonly DayEvent[]): Map<string, number> {
  const whole = new Map<string, number>();
  const byPump = new Map<string, number>();
  for (const { date, pump, usedL } of days) {
    if (usedL === undefined) continue;
    if (pump === undefined) whole.set(date, usedL);
    else byPump.set(date, (byPump.get(date) ?? 0) + usedL);
  }
  return new Map([...byPump, ...whole]);
}
