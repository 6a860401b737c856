/** What a well does by hour, weekday and season, and what never becomes a habit. */
import { describe, expect, it } from 'vitest';
import {
  closeHabitDay,
  minStartHours,
  countHours,
  addHabitDay,
  localHour,
  longestRestS,
  longestRunAtS,
  longestRunS,
  newHabit,
  normalStarts,
  type Habit,
} from '../../../src/core/baseline/habit.ts';
import { localDayAt } from '../../../src/core/well/local-day.ts';

const T0 = Date.UTC(2026, 2, 2);
const dateOf = (day: number): string => new Date(T0 + day * 86_400_000).toISOString().slice(0, 10);

interface Plan {
  cycles?: number;
  hours?: number[];
  longest?: number;
  at?: number;
  rest?: number;
}

function lived(days: Plan[], fromDay = 0, habit: Habit = newHabit()): Habit {
  for (const [at, plan] of days.entries()) {
    for (const hour of plan.hours ?? [7, 12, 18]) habit.startHourMask |= 1 << hour;
    habit.longestRunHour = plan.at ?? 7;
    addHabitDay(habit, dateOf(fromDay + at), {
      cycles: plan.cycles ?? 12,
      ranS: 1440,
      longestRunS: plan.longest ?? 300,
      longestRestS: plan.rest ?? 30_000,
    });
    closeHabitDay(habit);
  }
  return habit;
}
const days = (count: number, plan: Plan = {}): Plan[] => Array.from({ length: count }, () => plan);

describe('localHour', () => {
  it.each<[string, string, number]>([
    ['a plain day', '2026-03-10T13:30:00Z', 7],
    ['a day of 23 h, after the clocks went forward', '2026-03-08T13:30:00Z', 7],
    ['a day of 25 h, after they went back', '2026-11-01T14:30:00Z', 7],
    ['its last minute', '2026-11-02T06:59:00Z', 23],
    ['its first', '2026-03-10T06:00:00Z', 0],
  ])('in Denver on %s', (_name, iso, hour) => {
    const tMs = Date.parse(iso);
    expect(localHour(localDayAt(tMs, 'America/Denver'), tMs)).toBe(hour);
  });
  it('takes a moment of the day before', () => {
    expect(localHour({ startMs: T0, endMs: T0 + 86_400_000 }, T0 - 1)).toBe(23);
  });
});

describe('usualStarts', () => {
  it.each<[string, Plan[], number]>([
    ['two weeks alike', days(14), 12],
    ['a week of guests among three', [...days(7), ...days(7, { cycles: 40 }), ...days(7)], 12],
    ['an empty week among three', [...days(14), ...days(7, { cycles: 0 })], 12],
    ['guests who stay are the habit in the end', [...days(10), ...days(14, { cycles: 40 })], 40],
  ])('%s', (_name, plan, starts) => {
    expect(normalStarts(lived(plan), dateOf(plan.length))).toBe(starts);
  });
  it('knows the days on which a cabin is lived in', () => {
    const week = [...days(4, { cycles: 0 }), ...days(3, { cycles: 25 })];
    const habit = lived([...week, ...week, ...week]);
    // 2026-03-02 is a Monday.
    expect(normalStarts(habit, '2026-03-28')).toBe(25);
    expect(normalStarts(habit, '2026-03-25')).toBe(0);
  });
  it('remembers the garden of a year ago, and forgets one odd week of it', () => {
    const garden = lived(days(30, { cycles: 60, longest: 7200 }), 91);
    lived(days(60), 121, garden);
    expect(garden.months['06']).toEqual([60, 7200, 30_000]);
    expect(normalStarts(garden, '2027-05-28')).toBe(60);
    expect(longestRunS(garden, '2027-06-02')).toBe(7200);
    expect(normalStarts(garden, '2027-03-02')).toBe(12);
  });
});

describe('longest runs and rests', () => {
  it('are those that came twice: one pool, one holiday is no habit', () => {
    const once = lived([...days(6), { longest: 43_200, rest: 600_000 }, ...days(6)]);
    expect(longestRunS(once, dateOf(13))).toBe(300);
    expect(longestRestS(once, dateOf(13))).toBe(30_000);
  });
  it('are known by hour', () => {
    const habit = lived(days(14, { longest: 21_600, at: 2 }));
    expect(longestRunAtS(habit, 1)).toBe(21_600);
    expect(longestRunAtS(habit, 23)).toBe(0);
    expect(longestRunAtS(habit, 12)).toBe(0);
  });
  it('where there was one rest only it is that one', () => {
    expect(longestRestS(lived([{ rest: 400_000 }, ...days(9, { rest: 0 })]), dateOf(10))).toBe(400_000);
  });
});

describe('fewestStartHours', () => {
  const habit = lived([...days(13, { hours: [6, 9, 12, 15, 18] }), { hours: [6, 15, 18] }]);
  it.each<[string, { fromHour: number; hours: number; minDays: number }, number | undefined]>([
    ['the quietest day counts', { fromHour: 5, hours: 15, minDays: 14 }, 3],
    ['a window over midnight', { fromHour: 17, hours: 14, minDays: 14 }, 2],
    ['no day has a run at night', { fromHour: 20, hours: 8, minDays: 14 }, 0],
    ['too few days to say', { fromHour: 5, hours: 15, minDays: 15 }, undefined],
    ['a window of more than a day is a day', { fromHour: 3, hours: 40, minDays: 14 }, 3],
  ])('%s', (_name, ask, least) => {
    expect(minStartHours(habit, ask)).toBe(least);
  });
  it('hoursIn counts bits', () => {
    expect([0, 1, 0b1011, 0xffffff].map(countHours)).toEqual([0, 1, 3, 24]);
  });
});
