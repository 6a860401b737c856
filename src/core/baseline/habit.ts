/**
 * What this well does by hour, weekday and season: of each of the last three weeks' healthy days
 * its starts, the hours of the day in which they came and its longest run and rest, and of each
 * month gone by its middle. Three weeks, so that a week of guests, or an empty one, is never the
 * middle, and each weekday is there three times. What happened once is no habit: the longest that
 * counts is the longest that came twice.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import { median } from './robust.ts';

const WINDOW_DAYS = 21;
/** A month is remembered by this many healthy days of it, or not at all. */
const MIN_DAYS_PER_MONTH = 10;
/**
 * Runs that begin within so many hours of the clock are of one kind: a timer that knows no summer
 * time moves by one.
 */
const NEAR_HOURS = 2;

/**
 * One healthy day, short, since 21 of them are saved. `dayNumber` is its local date as days since
 * 1970; `hours` has bit h set where a run began in hour h of the local day.
 */
type HabitDay = [
  dayNumber: number,
  cycles: number,
  ranS: number,
  hours: number,
  longestRunS: number,
  longestRunHour: number,
  longestRestS: number,
];

export interface Habit {
  /** Oldest first. */
  days: HabitDay[];
  /** The running month (`01` to `12`) and how many of its days are in `days`. */
  month: string;
  monthDays: number;
  /**
   * Middle starts a day, longest run and longest rest, of each month gone by; last year's until
   * this year's is over.
   */
  months: Record<string, [cycles: number, longestRunS: number, longestRestS: number]>;
  /** Hours in which runs began: of the running day, and of the one that ended last. */
  startHourMask: number;
  lastDayHourMask: number;
  longestRunHour: number;
}

export function newHabit(): Habit {
  return {
    days: [],
    month: '',
    monthDays: 0,
    months: {},
    startHourMask: 0,
    lastDayHourMask: 0,
    longestRunHour: 0,
  };
}

/**
 * Hour of the local day, 0 to 23; also of a moment in the day before. It is counted back from the
 * day's end: clocks are put forward and back in the small hours, so that the rest of a day of 23 or
 * 25 h is right, and its first hours are off by one.
 */
export function localHour(day: { startMs: number; endMs: number }, tMs: number): number {
  const left = Math.ceil((day.endMs - tMs) / HOUR_MS);
  return (((24 - left) % 24) + 24) % 24;
}

/** A healthy day is over. `date` is the local one (ISO). */
export function addHabitDay(
  habit: Habit,
  date: string,
  day: { cycles: number; ranS: number; longestRunS: number; longestRestS: number },
): void {
  const month = date.slice(5, 7);
  if (month !== habit.month) {
    closeMonth(habit);
    habit.month = month;
    habit.monthDays = 0;
  }
  habit.monthDays++;
  habit.days.push([
    dayNumberOf(date),
    day.cycles,
    Math.round(day.ranS),
    habit.startHourMask,
    Math.round(day.longestRunS),
    habit.longestRunHour,
    Math.round(day.longestRestS),
  ]);
  if (habit.days.length > WINDOW_DAYS) habit.days.shift();
}

/** A run began in this hour of the running day. */
export function markStartHour(habit: Habit, hour: number): void {
  habit.startHourMask |= 1 << hour;
}

/** The running day ends, learnt from or not. */
export function closeHabitDay(habit: Habit): void {
  habit.lastDayHourMask = habit.startHourMask;
  habit.startHourMask = 0;
  habit.longestRunHour = 0;
}

function closeMonth(habit: Habit): void {
  const count = Math.min(habit.monthDays, habit.days.length);
  if (count < MIN_DAYS_PER_MONTH) return;
  const days = habit.days.slice(-count);
  habit.months[habit.month] = [
    Math.round(median(days.map(([, cycles]) => cycles)) ?? 0),
    secondLargest(days.map(([, , , , longest]) => longest)),
    secondLargest(days.map(([, , , , , , rest]) => rest)),
  ];
}

/** The longest that came at least twice; of one alone it is not known whether it comes again. */
function secondLargest(values: readonly number[]): number {
  let first = 0;
  let second = 0;
  for (const value of values) {
    if (value > first) {
      second = first;
      first = value;
    } else if (value > second) second = value;
  }
  return second;
}

/** A local date (ISO) as days since 1970. */
export function dayNumberOf(date: string): number {
  return Date.parse(date) / DAY_MS;
}

function isSameWeekday(dayNumber: number, other: number): boolean {
  return (dayNumber - other) % 7 === 0;
}

/**
 * Takes back the days from this one on, and returns them. Months that are over keep their middle.
 */
export function forgetHabitDays(habit: Habit, fromDay: number): HabitDay[] {
  const forgotten = habit.days.filter(([day]) => day >= fromDay);
  habit.days = habit.days.filter(([day]) => day < fromDay);
  habit.monthDays = Math.max(0, habit.monthDays - forgotten.length);
  return forgotten;
}

/** The months whose season this is: its own and its neighbours, since no spring keeps to a date. */
function seasonMonths(
  habit: Habit,
  date: string,
): [cycles: number, longestRunS: number, longestRestS: number][] {
  const month = Number(date.slice(5, 7)) - 1;
  return [-1, 0, 1].flatMap((by) => {
    const known = habit.months[String(((month + by + 12) % 12) + 1).padStart(2, '0')];
    return known ? [known] : [];
  });
}

/**
 * Starts that such a day usually has: the most of the middle of all days, of the same weekday's,
 * and of this season's a year ago.
 */
export function normalStarts(habit: Habit, date: string): number {
  const today = dayNumberOf(date);
  const same = habit.days.filter(([day]) => isSameWeekday(day, today)).map(([, cycles]) => cycles);
  return Math.max(
    median(habit.days.map(([, cycles]) => cycles)) ?? 0,
    same.length >= 2 ? median(same)! : 0,
    seasonStarts(habit, date),
  );
}

/** Starts of this season's days a year ago; 0 where none is known. */
export function seasonStarts(habit: Habit, date: string): number {
  return Math.max(0, ...seasonMonths(habit, date).map(([cycles]) => cycles));
}

/**
 * The longest run that came twice in these weeks, or in this season a year ago, s; 0 where none
 * did.
 */
export function longestRunS(habit: Habit, date: string): number {
  return Math.max(
    secondLargest(habit.days.map(([, , , , longest]) => longest)),
    ...seasonMonths(habit, date).map(([, longest]) => longest),
  );
}

/**
 * The same of the runs that began at about this hour of the day: a garden watered at 2 says nothing
 * of a run at noon.
 */
export function longestRunAtS(habit: Habit, hour: number): number {
  const near = habit.days.filter(([, , , , , began]) => {
    const apart = Math.abs(began - hour);
    return Math.min(apart, 24 - apart) <= NEAR_HOURS;
  });
  return secondLargest(near.map(([, , , , longest]) => longest));
}

/**
 * The longest rest that came twice, s; where the pump rested between days once only, that one; 0
 * where it never did.
 */
export function longestRestS(habit: Habit, date: string): number {
  const rests = habit.days.map(([, , , , , , rest]) => rest);
  return Math.max(
    secondLargest(rests) || Math.max(0, ...rests),
    ...seasonMonths(habit, date).map(([, , rest]) => rest),
  );
}

/**
 * In how many different hours runs began within these hours of the clock, on the day with the
 * fewest of them: what always comes by then. `fromHour` is the first whole hour; undefined with
 * fewer days than `minDays`.
 */
export function minStartHours(
  habit: Habit,
  { fromHour, hours, minDays }: { fromHour: number; hours: number; minDays: number },
): number | undefined {
  if (habit.days.length < minDays) return undefined;
  let window = 0;
  for (let i = 0; i < Math.min(24, hours); i++) window |= 1 << ((fromHour + i) % 24);
  return Math.min(...habit.days.map(([, , , began]) => countHours(began & window)));
}

/** Hours of the day in which runs began. */
export function countHours(mask: number): number {
  let count = 0;
  for (let left = mask; left !== 0; left &= left - 1) count++;
  return count;
}
