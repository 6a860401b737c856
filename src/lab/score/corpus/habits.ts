/**
 * Who draws water, how much and when: households by their number of heads, weekdays and seasons,
 * guests and empty weeks, gardens, softeners, pools. Amounts are usual ones (common practice, no
 * source); which of them falls on which day comes from a seed.
 */
import { DAY_MS } from '../../../../shared/units/duration.ts';
import { HOUSEHOLD, STOCK, type Fixture } from '../../model/demand.ts';
import { seeded } from '../../model/random.ts';
import { dayOf, hours, minutes, weekdayOf } from './times.ts';

export interface Draw {
  fromMs: number;
  untilMs: number;
  lPerS: number;
}

/** `HOUSEHOLD` is about two people, 380 L a day. */
const PEOPLE_OF_HOUSEHOLD = 2;

function scaleUse(fixtures: readonly Fixture[], times: number): Fixture[] {
  return fixtures.map((fixture) => ({ ...fixture, perDay: fixture.perDay * times }));
}

export function people(count: number): Fixture[] {
  return scaleUse(HOUSEHOLD, count / PEOPLE_OF_HOUSEHOLD);
}

/** `STOCK` is about thirty head of cattle, 1.8 m3 a day. */
export function cattle(count: number): Fixture[] {
  return scaleUse(STOCK, count / 30);
}

/** The share of the usual that is used at a moment. */
export type UseRatio = (tMs: number) => number;

/**
 * More on Saturday and Sunday, by how much differs from house to house; what differs from day to
 * day is the plant's.
 */
export function weekdays(seed: number, utcOffsetH: number): UseRatio {
  const more = 0.5 * seeded(seed).next();
  return (tMs) => {
    const weekday = weekdayOf(tMs, utcOffsetH);
    return weekday === 0 || weekday === 6 ? 1 + more : 1 - 0.4 * more;
  };
}

/** Summer is `by` over the mean, winter as much under it (northern summer: most in mid July). */
export function seasonal(useRatio: UseRatio, by: number): UseRatio {
  return (tMs) => useRatio(tMs) * (1 + by * Math.cos((2 * Math.PI * (dayOf(tMs, 0) - 196)) / 365.25));
}

/** Between these moments another share holds: 0 away, 2 with guests. */
export function during(
  useRatio: UseRatio,
  spans: readonly { fromMs: number; untilMs: number; by: number }[],
): UseRatio {
  return (tMs) => {
    const span = spans.find(({ fromMs, untilMs }) => tMs >= fromMs && tMs < untilMs);
    return span ? useRatio(tMs) * span.by : useRatio(tMs);
  };
}

interface Daily {
  /** Local midnight of the first day. */
  fromMs: number;
  days: number;
  /** Each so many days, from the first. */
  everyDays: number;
  hour: number;
  forMin: number;
  lPerS: number;
}

/** The same draw at the same hour: a garden's timer, a softener. */
export function byTimer({ fromMs, days, everyDays, hour, forMin, lPerS }: Daily): Draw[] {
  const draws: Draw[] = [];
  for (let day = 0; day < days; day += everyDays) {
    const beginMs = fromMs + day * DAY_MS + hours(hour);
    draws.push({ fromMs: beginMs, untilMs: beginMs + minutes(forMin), lPerS });
  }
  return draws;
}

/** By hand: on some days, at another hour and for another time each. */
export function byHand(options: Daily & { seed: number; chance: number }): Draw[] {
  const random = seeded(options.seed);
  return byTimer(options).flatMap((draw) => {
    const [dice, late, long] = [random.next(), random.next(), random.next()];
    if (dice >= options.chance) return [];
    const fromMs = draw.fromMs + minutes(Math.round(150 * late));
    const untilMs = fromMs + minutes(Math.round(options.forMin * (0.5 + long)));
    return [{ fromMs, untilMs, lPerS: options.lPerS }];
  });
}

/**
 * A softener regenerates at 02:00: backwash, brine and slow rinse, fast rinse (common practice, no
 * source).
 */
export function softener({ fromMs, days, everyDays }: Pick<Daily, 'fromMs' | 'days' | 'everyDays'>): Draw[] {
  const step = (minute: number, forMin: number, lPerS: number): Draw[] =>
    byTimer({ fromMs: fromMs + minutes(minute), days, everyDays, hour: 2, forMin, lPerS });
  return [...step(0, 10, 0.13), ...step(10, 55, 0.025), ...step(65, 8, 0.13)];
}

/** One draw: a pool, a hose. */
export function once(fromMs: number, forMin: number, lPerS: number): Draw {
  return { fromMs, untilMs: fromMs + minutes(forMin), lPerS };
}
