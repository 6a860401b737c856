/** What is told and not told of a well whose hours, weekdays and seasons are known. */
import { describe, expect, it } from 'vitest';
import { closeHabitDay, addHabitDay, newHabit, type Habit } from '../../../src/core/baseline/habit.ts';
import { houseCard, kit, normal, play, usualBaseline, type KitOptions } from './scene-kit.ts';

const FEB = Date.UTC(2026, 1, 1);

/** Three weeks before the kit's first day, each alike. */
function habitOf(day: { hours: number[]; cycles?: number; longest?: number; at?: number }): Habit {
  const habit = newHabit();
  for (let at = 0; at < 21; at++) {
    for (const hour of day.hours) habit.startHourMask |= 1 << hour;
    habit.longestRunHour = day.at ?? day.hours[0]!;
    addHabitDay(habit, new Date(FEB + at * 86_400_000).toISOString().slice(0, 10), {
      cycles: day.cycles ?? day.hours.length,
      ranS: 3600,
      longestRunS: day.longest ?? 300,
      longestRestS: 36_000,
    });
    closeHabitDay(habit);
  }
  return habit;
}

function table(rows: [name: string, text: string, reported: string[], options?: KitOptions][]): void {
  it.each(rows)('%s', (_name, text, reported, options) => {
    expect(play(text, options)).toEqual(reported);
  });
}

/** Current falls from 8.3 A to 7.4 A at cut-out. */
const fill = { everyS: 30, amps: [null, 8.3, 8, 7.6, 7.4], ampsSpread: [], kpa: [], kpaSpread: [] };

describe('long-run by hour', () => {
  const watered = habitOf({ hours: [2, 7, 18], longest: 6.5 * 3600, at: 2 });
  const only: KitOptions = { kinds: ['long-run'] };
  const shortRuns = habitOf({ hours: [2, 7, 18], longest: 600, at: 7 });
  table([
    [
      'a tap left open at noon',
      'rest 50psi x720 | run 8.2A 48psi x850',
      ['1561 min long-run raised soon open-tap'],
      { ...only, habit: watered },
    ],
    [
      'a house that never ran for more than ten minutes is asked after forty, and told when nobody answers',
      'rest 50psi x720 | run 8.2A 48psi x300',
      ['761 min long-run raised soon open-tap', '1001 min long-run changed now open-tap'],
      { ...only, habit: shortRuns },
    ],
    [
      'from nine in the evening: asked, and urgent after an hour of the night',
      'rest 50psi x1260 | run 8.2A 48psi x300',
      ['1301 min long-run raised soon open-tap', '1380 min long-run changed now open-tap'],
      { ...only, habit: shortRuns, card: houseCard({ timeZone: 'Europe/London' }) },
    ],
    [
      'where the card names no time zone no night is known',
      'rest 50psi x1260 | run 8.2A 48psi x200',
      ['1301 min long-run raised soon open-tap'],
      { ...only, habit: shortRuns },
    ],
    [
      'the card’s own time, whatever was learned',
      'rest 50psi x720 | run 8.2A 48psi x100',
      ['811 min long-run raised soon open-tap'],
      { ...only, habit: shortRuns, card: houseCard({ longRunS: 5400 }) },
    ],
    [
      'the same on a field is watered by night',
      'rest 50psi x180 | run 8.2A 48psi x600',
      [],
      {
        ...only,
        card: houseCard({ uses: ['irrigation'] }),
        habit: shortRuns,
      },
    ],
    [
      'such a house without pressure, after an hour at a little less current than at cut-out',
      'rest x720 | run 7.2A x70',
      ['761 min long-run raised soon worn-pump', '781 min long-run changed now switch-contacts-stuck'],
      {
        ...only,
        baseline: usualBaseline({ shape: fill }),
        habit: shortRuns,
      },
    ],
    [
      'a garden at 2, as every night, and twice as long',
      'rest 50psi x120 | run 8.2A 48psi x780',
      [],
      { ...only, habit: watered },
    ],
    [
      'the same for more than 2.5 times its longest',
      'rest 50psi x120 | run 8.2A 48psi x980',
      ['1096 min long-run raised soon open-tap'],
      { ...only, habit: watered },
    ],
    [
      'a field that was seen watered for two hours and a half does not need 30 h',
      'run 8.2A 48psi x850',
      ['841 min long-run raised soon open-tap'],
      { ...only, card: houseCard({ uses: ['irrigation'] }), baseline: usualBaseline({ longestRunS: 9000 }) },
    ],
    [
      'one that was never seen watered has them: the season begins',
      'run 8.2A 48psi x1700',
      [],
      { ...only, card: houseCard({ uses: ['irrigation'] }) },
    ],
    [
      'a store that was emptied, while its level rises',
      Array.from({ length: 300 }, (_, at) => `run 8A ${(1 + at / 200).toFixed(2)}st x3`).join(' | '),
      [],
      {
        ...only,
        card: houseCard({ pump: { control: 'float' }, switch: {} }),
        baseline: usualBaseline({ longestRunS: 3600 }),
      },
    ],
    [
      'the same, and the level does not rise',
      'run 8A 1.2st x170',
      ['151 min long-run raised soon switch-contacts-stuck'],
      {
        ...only,
        card: houseCard({ pump: { control: 'float' }, switch: {} }),
        baseline: usualBaseline({ longestRunS: 3600 }),
      },
    ],
  ]);

  it('an acknowledgement is an answer for four hours', () => {
    const asked = kit({ ...only, habit: shortRuns }).play('rest 50psi x720 | run 8.2A 48psi x120');
    asked.act({ kind: 'acknowledged', well: 'north-paddock', pump: 'p1', alarm: 'long-run' });
    expect(asked.play('run 8.2A 48psi x230').said()).toEqual(['761 min long-run raised soon open-tap']);
    expect(asked.play('run 8.2A 48psi x20').said().at(-1)).toBe('1080 min long-run changed now open-tap');
  });
});

describe('no-run by hour', () => {
  const drinks = habitOf({ hours: [5, 6, 7, 9, 11, 13, 15, 17, 18, 19, 20, 21] });
  const stock = houseCard({ uses: ['stock'], pump: { control: 'float' }, switch: {} });
  const timer = houseCard({ uses: ['irrigation'], pump: { control: 'timer' }, switch: {} });
  const twice = habitOf({ hours: [2, 14] });
  const base = usualBaseline({ longestRestS: 40_000 });
  const only: KitOptions = { kinds: ['no-run'], baseline: base };
  table([
    [
      'stock that drink by day: dead since half past four, told before the day is over',
      'rest x265 | run 8A x5 | rest x900',
      ['937 min no-run raised now power-lost'],
      { ...only, card: stock, habit: drinks },
    ],
    ['the night is a rest', 'run 8A x1290 | rest x600', [], { ...only, card: stock, habit: drinks }],
    [
      'announced: the stock are away',
      'rest x265 | run 8A x5 | rest x900',
      [],
      { ...only, card: stock, habit: drinks, expected: 'moved' },
    ],
    [
      'a timer at 2 and 14: two runs did not come',
      'rest x120 | run 8A x30 | rest x1700',
      ['1710 min no-run raised soon power-lost'],
      { ...only, card: timer, habit: twice },
    ],
    [
      'one run that did not come is none yet: the store may be full',
      'rest x120 | run 8A x30 | rest x1390',
      [],
      { ...only, card: timer, habit: twice },
    ],
    [
      'fewer than two weeks say nothing of hours',
      'rest x265 | run 8A x5 | rest x900',
      [],
      { ...only, card: stock, habit: { ...drinks, days: drinks.days.slice(0, 13) } },
    ],
  ]);
});

describe('cycle-count by weekday, hour and season', () => {
  const only: KitOptions = { kinds: ['cycle-count'] };
  const house = habitOf({ hours: [7, 12, 18], cycles: 12 });
  table([
    [
      'five times the starts for a week, round the clock',
      'day 12 cycles 1440s x8 | day 60 cycles 7200s in 24 hours x7',
      ['day 13 cycle-count raised note habit-changed'],
      { ...only, habit: house },
    ],
    [
      'the same in the hours of a garden',
      'day 12 cycles 1440s x8 | day 60 cycles 10000s x14',
      [],
      { ...only, habit: house },
    ],
    [
      'as many a year ago in this season',
      'day 12 cycles 1440s x8 | day 60 cycles 7200s in 24 hours x7',
      [],
      { ...only, habit: { ...house, months: { '03': [40, 7200, 30_000] } } },
    ],
    [
      'grows slowly with runs that shorten: held against what was first learnt',
      'day 12 cycles 1440s x8 | day 26 cycles 2000s x7',
      ['day 14 cycle-count raised note tank-air-lost'],
      { ...only, habit: house, baseline: usualBaseline({ cyclesPerDay: normal(12, 1, 14) }) },
    ],
  ]);
});
