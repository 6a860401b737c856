/**
 * What is remembered while a pump's normal is learnt: of each healthy day its quantiles, never its cycles, so that a week fits
 * in about a kilobyte. Quantiles of equal rank carry a day's distribution: pooled over days they give its median and MAD nearly as
 * all the cycles would. Their number matters: with two or six ranks the quartiles are among them, and 1.4826 x MAD comes out as sigma;
 * with three it would be 1.43 of it, with five 0.78.
 */
import type { Cycle } from '../cycles/cycle.ts';
import { endHabitDay, keepHabitDay, newHabit, type Habit } from './habit.ts';
import { quantile } from './robust.ts';

/** Days that slide: a whole week, short enough that a change of season is followed. */
const DAYS_SLIDING = 7;
/** Cycles of the running day that are kept; beyond, every second one is dropped and only every second one taken from then on. */
const TODAY_KEPT = 12;

/** One cycle as it is remembered till its day ends; null where it could not be measured. */
type Sample = [
  amps: number | null,
  mid: number | null,
  cutIn: number | null,
  cutOut: number | null,
  ran: number | null,
];

/** Quantiles of one day, at ranks (i + 0.5) / count, lowest first. */
interface DaySlot {
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
  seen: number;
  todayLongestRunS: number;
  todayLongestRestS: number;
  /** Newest last. */
  slots: DaySlot[];
  /** What it does by hour, weekday and season. */
  habit: Habit;
  /** Since learning began: healthy days and their cycles, and whole days that could not be healthy. */
  days: number;
  cycles: number;
  illDays: number;
  /** Why the days so far could not be healthy, as told last. */
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
    seen: 0,
    todayLongestRunS: 0,
    todayLongestRestS: 0,
    slots: [],
    habit: newHabit(),
    days: 0,
    cycles: 0,
    illDays: 0,
  };
}

/**
 * Takes one cycle into the running day, bounded: it keeps every `stride`-th, evenly over the day. `hour` is that of the local day in
 * which it began, where that day is known.
 */
export function takeSample(
  state: Learning,
  cycle: Cycle,
  { ampsAtMid, hour }: { ampsAtMid: number | undefined; hour: number | undefined },
): void {
  const whole = !cycle.flags.includes('gap');
  if (hour !== undefined) state.habit.hours |= 1 << hour;
  if (whole && cycle.ranS > state.todayLongestRunS) {
    state.todayLongestRunS = cycle.ranS;
    state.habit.longestRunHour = hour ?? 0;
  }
  state.todayLongestRestS = Math.max(state.todayLongestRestS, cycle.restedS ?? 0);
  const at = state.seen++;
  if (at % state.stride !== 0) return;
  state.today.push([
    shorten(cycle.amps),
    shorten(ampsAtMid),
    shorten(cycle.cutInKpa),
    cycle.flags.includes('no-cut-out') ? null : shorten(cycle.cutOutKpa),
    whole ? shorten(cycle.ranS) : null,
  ]);
  if (state.today.length <= TODAY_KEPT) return;
  state.today = state.today.filter((_, place) => place % 2 === 0);
  state.stride *= 2;
}

/** Forgets the running day's cycles, learnt or not. */
export function clearToday(state: Learning): void {
  state.today = [];
  state.stride = 1;
  state.seen = 0;
  state.todayLongestRunS = 0;
  state.todayLongestRestS = 0;
  endHabitDay(state.habit);
}

/** Makes the running day a healthy one: its quantiles slide in, the oldest slide out. */
export function keepDay(state: Learning, date: string, day: { cycles: number; ranS: number }): void {
  if (state.today.length > 0) {
    state.slots.push({
      amps: ranks(state.today, 0, 6),
      mid: ranks(state.today, 1, 2),
      cutIn: ranks(state.today, 2, 2),
      cutOut: ranks(state.today, 3, 2),
      ran: ranks(state.today, 4, 4),
    });
    if (state.slots.length > DAYS_SLIDING) state.slots.shift();
  }
  keepHabitDay(state.habit, date, {
    ...day,
    longestRunS: state.todayLongestRunS,
    longestRestS: state.todayLongestRestS,
  });
  state.days++;
  state.cycles += day.cycles;
}

function ranks(samples: readonly Sample[], column: 0 | 1 | 2 | 3 | 4, count: number): number[] {
  const values = samples.map((sample) => sample[column]).filter((value): value is number => value !== null);
  if (values.length <= count) return values.sort((a, b) => a - b);
  return Array.from({ length: count }, (_, i) => shorten(quantile(values, (i + 0.5) / count)) ?? 0);
}

/** Four significant figures are below what any clamp or transducer here can tell, and keep the saved state small. */
function shorten(value: number | undefined): number | null {
  return value === undefined ? null : Number(value.toPrecision(4));
}
