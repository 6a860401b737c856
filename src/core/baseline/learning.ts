/**
 * What is remembered while a pump's normal is learnt: of each healthy day its quantiles, never its
 * cycles, so that a week fits in about a kilobyte. Quantiles of equal rank carry a day's
 * distribution: pooled over days they give its median and MAD nearly as all the cycles would. Their
 * number matters: with two or six ranks the quartiles are among them, and 1.4826 x MAD comes out as
 * sigma; with three it would be 1.43 of it, with five 0.78.
 */
import type { Cycle } from '../cycles/cycle.ts';
import {
  closeHabitDay,
  addHabitDay,
  dayNumberOf,
  forgetHabitDays,
  newHabit,
  type Habit,
  markStartHour,
} from './habit.ts';
import { quantile } from './robust.ts';

/** Days that slide: a whole week, short enough that a change of season is followed. */
const WINDOW_DAYS = 7;
/**
 * After days were taken back, fewer days than this are no measure, neither of a run nor of a day:
 * half of the week that slides (argued, not measured).
 */
const MIN_DAYS_LEFT = 3;
/**
 * Cycles of the running day that are kept; beyond, every second one is dropped and only every
 * second one taken from then on.
 */
const MAX_TODAY_SAMPLES = 12;

/** One cycle as it is remembered till its day ends; null where it could not be measured. */
type Sample = [
  amps: number | null,
  mid: number | null,
  cutIn: number | null,
  cutOut: number | null,
  ran: number | null,
];

/** Quantiles of one day, at ranks (i + 0.5) / count, lowest first. */
interface DayQuantiles {
  /** Its local date as days since 1970. */
  on: number;
  amps: number[];
  mid: number[];
  cutIn: number[];
  cutOut: number[];
  ran: number[];
}

export interface Learning {
  today: Sample[];
  /** Of so many cycles one is taken into `today`. */
  stride: number;
  seenCycles: number;
  todayLongestRunS: number;
  todayLongestRestS: number;
  /** Newest last. */
  recentDays: DayQuantiles[];
  /** What it does by hour, weekday and season. */
  habit: Habit;
  /**
   * Days were taken back and too few are left: the baseline stays as it was before them until
   * enough have come. A well that seldom runs has few days with runs too, but none was taken back.
   */
  isShortOfDays?: true;
  /**
   * Since learning began: healthy days and their cycles, and whole days that could not be healthy.
   */
  days: number;
  cycles: number;
  unhealthyDays: number;
  /** Why the days so far could not be healthy: the name of the reason that was told last. */
  noneBecause?: string;
  shape?: ShapeTrack;
}

/** The running estimate of a run's shape; see ./shape-track.ts. */
export interface ShapeTrack {
  everyS: number;
  n: number;
  amps: (number | null)[];
  ampsSpread: (number | null)[];
  kpa: (number | null)[];
  kpaSpread: (number | null)[];
}

export function newLearning(): Learning {
  return {
    today: [],
    stride: 1,
    seenCycles: 0,
    todayLongestRunS: 0,
    todayLongestRestS: 0,
    recentDays: [],
    habit: newHabit(),
    days: 0,
    cycles: 0,
    unhealthyDays: 0,
  };
}

/**
 * Takes one cycle into the running day, bounded: it keeps every `stride`-th, evenly over the day.
 * `hour` is that of the local day in which it began, where that day is known.
 */
export function addSample(
  state: Learning,
  cycle: Cycle,
  { ampsAtMid, hour }: { ampsAtMid: number | undefined; hour: number | undefined },
): void {
  const whole = !cycle.flags.includes('gap');
  if (hour !== undefined) markStartHour(state.habit, hour);
  if (whole && cycle.ranS > state.todayLongestRunS) {
    state.todayLongestRunS = cycle.ranS;
    state.habit.longestRunHour = hour ?? 0;
  }
  state.todayLongestRestS = Math.max(state.todayLongestRestS, cycle.restedS ?? 0);
  const at = state.seenCycles++;
  if (at % state.stride !== 0) return;
  state.today.push([
    roundToFourFigures(cycle.amps),
    roundToFourFigures(ampsAtMid),
    roundToFourFigures(cycle.cutInKpa),
    cycle.flags.includes('no-cut-out') ? null : roundToFourFigures(cycle.cutOutKpa),
    whole ? roundToFourFigures(cycle.ranS) : null,
  ]);
  if (state.today.length <= MAX_TODAY_SAMPLES) return;
  state.today = state.today.filter((_, place) => place % 2 === 0);
  state.stride *= 2;
}

/** Forgets the running day's cycles, learnt or not. */
export function clearToday(state: Learning): void {
  state.today = [];
  state.stride = 1;
  state.seenCycles = 0;
  state.todayLongestRunS = 0;
  state.todayLongestRestS = 0;
  closeHabitDay(state.habit);
}

/** Makes the running day a healthy one: its quantiles slide in, the oldest slide out. */
export function addDay(state: Learning, date: string, day: { cycles: number; ranS: number }): void {
  if (state.today.length > 0) {
    state.recentDays.push({
      on: dayNumberOf(date),
      amps: dayQuantiles(state.today, 0, 6),
      mid: dayQuantiles(state.today, 1, 2),
      cutIn: dayQuantiles(state.today, 2, 2),
      cutOut: dayQuantiles(state.today, 3, 2),
      ran: dayQuantiles(state.today, 4, 4),
    });
    if (state.recentDays.length > WINDOW_DAYS) state.recentDays.shift();
  }
  addHabitDay(state.habit, date, {
    ...day,
    longestRunS: state.todayLongestRunS,
    longestRestS: state.todayLongestRestS,
  });
  state.days++;
  state.cycles += day.cycles;
  if (hasDaysLeft(state)) delete state.isShortOfDays;
}

/**
 * Takes back what was learned from this local date on: an alarm tells that its condition began then
 * (./forget-days.ts). Returns whether any day was.
 */
export function forgetDays(state: Learning, fromDate: string): boolean {
  const from = dayNumberOf(fromDate);
  const forgotten = forgetHabitDays(state.habit, from);
  state.recentDays = state.recentDays.filter(({ on }) => on < from);
  state.days -= forgotten.length;
  state.cycles -= forgotten.reduce((sum, [, cycles]) => sum + cycles, 0);
  if (forgotten.length > 0 && !hasDaysLeft(state)) state.isShortOfDays = true;
  return forgotten.length > 0;
}

function hasDaysLeft({ recentDays, habit }: Learning): boolean {
  return Math.min(recentDays.length, habit.days.length) >= MIN_DAYS_LEFT;
}

function dayQuantiles(samples: readonly Sample[], column: 0 | 1 | 2 | 3 | 4, count: number): number[] {
  const values = samples.map((sample) => sample[column]).filter((value): value is number => value !== null);
  if (values.length <= count) return values.sort((a, b) => a - b);
  return Array.from(
    { length: count },
    (_, i) => roundToFourFigures(quantile(values, (i + 0.5) / count)) ?? 0,
  );
}

/**
 * Four significant figures are below what any clamp or transducer here can tell, and keep the saved
 * state small.
 */
function roundToFourFigures(value: number | undefined): number | null {
  return value === undefined ? null : Number(value.toPrecision(4));
}
