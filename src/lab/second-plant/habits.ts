/**
 * People, animals and machines that draw water, each with habits of their own. A habit makes a
 * day's draws from the day and from chance; amounts of fixtures are usual ones (US EPA, WaterSense
 * product pages; from memory), how often they are used is common practice without a source.
 */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import type { Random } from '../model/random.ts';
import { seasonC, type ClimatePlan } from './weather.ts';

/** L/s at 300 kPa; a fixture with a governor of its own takes the same at any pressure. */
export interface Draw {
  fromMs: number;
  untilMs: number;
  lPerS: number;
}

export interface HabitDay {
  /** Local midnight. */
  startMs: number;
  day: number;
  weekday: number;
  /** Mean temperature outside. */
  meanC: number;
  climate: ClimatePlan;
  random: Random;
}

export type Habit = (day: HabitDay) => Draw[];

interface Fixture {
  lPerS: number;
  forS: number;
  /** Uses of one person in a day. */
  aDay: number;
  /** One use is so many fills with a pause between. */
  fills?: number;
}

const FIXTURES: readonly Fixture[] = [
  { lPerS: 0.1, forS: 55, aDay: 5 },
  { lPerS: 0.12, forS: 420, aDay: 0.7 },
  { lPerS: 0.08, forS: 22, aDay: 14 },
  { lPerS: 0.2, forS: 110, aDay: 0.3, fills: 3 },
  { lPerS: 0.06, forS: 65, aDay: 0.35, fills: 3 },
  { lPerS: 0.25, forS: 300, aDay: 0.08 },
];
const FILL_PAUSE_MS = 14 * MINUTE_MS;

/** How likely a use is in each hour of the day. */
const HOURS = {
  family: [1, 0, 0, 0, 0, 2, 9, 12, 8, 4, 3, 3, 5, 4, 3, 4, 6, 9, 10, 9, 8, 7, 4, 2],
  retired: [1, 1, 1, 1, 1, 1, 3, 6, 9, 9, 8, 7, 8, 6, 5, 5, 6, 8, 8, 6, 4, 3, 2, 1],
  nights: [6, 5, 4, 4, 3, 3, 4, 8, 6, 2, 0, 0, 0, 0, 2, 5, 8, 9, 7, 6, 5, 4, 5, 6],
} as const;
type DailyRhythm = keyof typeof HOURS;

interface HouseholdOptions {
  people: number;
  rhythm: DailyRhythm;
  /** Home on workdays too. */
  athome?: boolean;
}

/** People of a house. A shift worker's weeks alternate between days and nights. */
export function household({ people, rhythm, athome = false }: HouseholdOptions): Habit {
  return ({ startMs, day, weekday, random }) => {
    const atNight = rhythm === 'nights' && Math.floor(day / 7) % 2 === 0;
    const hours = HOURS[rhythm === 'nights' && !atNight ? 'family' : rhythm];
    const weekend = weekday === 0 || weekday === 6;
    const mood = Math.exp(0.18 * random.normal());
    const times = people * mood * (weekend || athome ? 1.2 : 0.95);
    return FIXTURES.flatMap((fixture) =>
      Array.from({ length: countOf(fixture.aDay * times, random) }, () =>
        useOf(fixture, startMs + pick(hours, random) * HOUR_MS, random),
      ).flat(),
    );
  };
}

function useOf({ lPerS, forS, fills = 1 }: Fixture, atMs: number, random: Random): Draw[] {
  const times = Math.exp(0.25 * random.normal());
  const flow = lPerS * Math.exp(0.12 * random.normal());
  return Array.from({ length: fills }, (_, at) => {
    const fromMs = atMs + at * FILL_PAUSE_MS;
    return { fromMs, untilMs: fromMs + 1000 * Math.max(3, forS * times), lPerS: flow };
  });
}

/** Poisson, by counting exponential waits. */
function countOf(mean: number, random: Random): number {
  let count = -1;
  for (let left = mean; left > 0; count++) left += Math.log(1 - random.next());
  return Math.max(0, count);
}

/** An hour of the day, by weights, and somewhere within it. */
function pick(weights: readonly number[], random: Random): number {
  let left = random.next() * weights.reduce((sum, weight) => sum + weight, 0);
  const hour = weights.findIndex((weight) => (left -= weight) <= 0);
  return Math.max(0, hour) + random.next();
}

/**
 * A herd that drinks by the weather: 7.5 L a day for 100 kg in winter and twice as much in summer
 * (Kansas State University, Livestock Watering Handbook). It comes to the trough in groups.
 */
export function stock(heads: number, kgAHead = 500): Habit {
  return ({ startMs, meanC, random }) => {
    const heat = Math.min(1, Math.max(0, (meanC - 2) / 24));
    const litres = heads * (kgAHead / 100) * 6.3 * (1 + heat) * Math.exp(0.1 * random.normal());
    const groups = Math.max(2, Math.round(heads / 12));
    const lPerS = Math.min(0.35, 0.12 + heads / 400);
    const visits = groups * 3;
    return Array.from({ length: visits }, () => {
      const fromMs = startMs + (5 + 15 * Math.sqrt(random.next())) * HOUR_MS;
      return { fromMs, untilMs: fromMs + (1000 * litres) / visits / lPerS, lPerS };
    });
  };
}

export interface TimedOptions {
  lPerS: number;
  hour: number;
  forMin: number;
  everyDays: number;
  /** Only when the mean of the season is above this. */
  aboveC?: number;
  /** Days since 1970. */
  fromDay?: number;
  untilDay?: number;
}

/** A clock that opens a valve: irrigation, a softener at night. */
export function timed(options: TimedOptions): Habit {
  const { lPerS, hour, forMin, everyDays, aboveC = -99, fromDay = 0, untilDay = 1e9 } = options;
  return ({ startMs, day, climate }) => {
    const due = day % everyDays === 0 && day >= fromDay && day < untilDay;
    if (!due || seasonC(climate, day) < aboveC) return [];
    const fromMs = startMs + hour * HOUR_MS;
    return [{ fromMs, untilMs: fromMs + forMin * MINUTE_MS, lPerS }];
  };
}

/** Backwash, brine and rinse of a softener, at two in the night. */
export function softener(everyDays: number): Habit {
  return ({ startMs, day }) => {
    if (day % everyDays !== 0) return [];
    const parts = [
      { atMin: 0, forMin: 10, lPerS: 0.15 },
      { atMin: 11, forMin: 55, lPerS: 0.03 },
      { atMin: 67, forMin: 10, lPerS: 0.15 },
    ];
    return parts.map(({ atMin, forMin, lPerS }) => {
      const fromMs = startMs + 2 * HOUR_MS + atMin * MINUTE_MS;
      return { fromMs, untilMs: fromMs + forMin * MINUTE_MS, lPerS };
    });
  };
}

/** A hose in a dry month, now and then, once in a while left on for hours. */
export function hose(chance: number, leftOn: number): Habit {
  return ({ startMs, climate, day, random }) => {
    if (seasonC(climate, day) < 12 || random.next() > chance) return [];
    const fromMs = startMs + (16 + 3 * random.next()) * HOUR_MS;
    const forMin = random.next() < leftOn ? 150 + 90 * random.next() : 10 + 25 * random.next();
    return [{ fromMs, untilMs: fromMs + forMin * MINUTE_MS, lPerS: 0.2 + 0.1 * random.next() }];
  };
}

/**
 * An open-loop heat pump under its thermostat: the part of each half hour that it runs goes with
 * how far the day is from comfort.
 */
export function heatPump(lPerS: number): Habit {
  return ({ startMs, meanC, random }) => {
    const part = Math.min(0.8, Math.abs(meanC - 16) / 30);
    if (part < 0.08) return [];
    return Array.from({ length: 48 }, (_, half) => {
      const fromMs = startMs + half * 30 * MINUTE_MS + 3 * MINUTE_MS * random.next();
      const forMs = 30 * MINUTE_MS * Math.min(0.85, part * (0.85 + 0.3 * random.next()));
      return { fromMs, untilMs: fromMs + forMs, lPerS };
    });
  };
}

/** A filter or an ice maker that takes a cup each hour or so. */
export function smallDraws(aDay: number): Habit {
  return ({ startMs, random }) =>
    Array.from({ length: countOf(aDay, random) }, () => {
      const fromMs = startMs + random.next() * DAY_MS;
      return { fromMs, untilMs: fromMs + 8000, lPerS: 0.03 };
    });
}

/** Only on some days: a weekend house, guests, a holiday. */
export function onDays(habit: Habit, on: (day: number, weekday: number) => boolean): Habit {
  return (day) => (on(day.day, day.weekday) ? habit(day) : []);
}
