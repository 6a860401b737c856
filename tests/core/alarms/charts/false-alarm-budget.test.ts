/**
 * The budget of false alarms: how it is shared, and that it is kept by the watches themselves, on
 * data that hang together and with a normal that was learnt from few runs.
 */
import { describe, expect, it } from 'vitest';
import type { DayEvent } from '../../../../shared/api/events.ts';
import type { Baseline } from '../../../../src/core/baseline/baseline.ts';
import { normalOf } from '../../../../src/core/baseline/robust.ts';
import type { Card } from '../../../../src/core/domain/card.ts';
import type { Cycle } from '../../../../src/core/cycles/cycle.ts';
import { ampsHigh } from '../../../../src/core/alarms/electric/amps-high.ts';
import { ampsLow } from '../../../../src/core/alarms/electric/amps-low.ts';
import {
  DEFAULT_FALSE_ALARMS_PER_YEAR,
  runLengthFor,
  autocorrelationFactor,
} from '../../../../src/core/alarms/charts/false-alarm-budget.ts';
import { cycleCount } from '../../../../src/core/alarms/water/cycle-count.ts';
import { updateCusum, newCusum } from '../../../../src/core/alarms/charts/cusum.ts';
import {
  cusumArl,
  cusumLimit,
  ewmaArl,
  ewmaWidth,
  medianSize,
} from '../../../../src/core/alarms/charts/run-length.ts';
import { MAX_DAYS } from '../../../../src/core/well/well-state.ts';
import type { Scene, Watch } from '../../../../src/core/alarms/scene.ts';
import { closeHabitDay, addHabitDay, newHabit, type Habit } from '../../../../src/core/baseline/habit.ts';
import { autoregressive, normals, uniforms } from '../../../support/normals.ts';
import { houseCard, T0, usualBaseline } from '../scene-kit.ts';

const DAY = 86_400_000;
const one = houseCard();

describe('runLengthFor', () => {
  it('shares out the whole and no more; of amps a chart and a half counts each way', () => {
    const amps = 4000;
    const aYear =
      (1.5 * amps) / runLengthFor('amps-high', amps, one) +
      (1.5 * amps) / runLengthFor('amps-low', amps, one) +
      365 / runLengthFor('cycle-count', 365, one);
    expect(aYear).toBeCloseTo(DEFAULT_FALSE_ALARMS_PER_YEAR, 9);
  });
  it('is asked for on the card, and shared by several pumps', () => {
    const usual = runLengthFor('amps-high', 4000, one);
    expect(runLengthFor('amps-high', 4000, { ...one, falseAlarmsPerYear: 0.5 })).toBeCloseTo(usual / 10, 6);
    const two = { ...one, pumps: [...one.pumps, ...one.pumps] };
    expect(runLengthFor('amps-high', 4000, two)).toBeCloseTo(2 * usual, 6);
    expect(runLengthFor('amps-high', 10, { ...one, falseAlarmsPerYear: 10 })).toBeGreaterThanOrEqual(100);
  });
});

describe('the budget on the card', () => {
  const BUDGETS = [0.02, 0.1, 0.5, 2];
  const cardWith = (falseAlarmsPerYear: number): Card => ({ ...one, falseAlarmsPerYear });
  const ampsArl = (budget: number): number => runLengthFor('amps-high', 12 * 365, cardWith(budget));
  const countArl = (budget: number): number => runLengthFor('cycle-count', 365, cardWith(budget));

  it('moves the limit of each chart, and each step of it by more than its rounding', () => {
    const charts: ((budget: number) => number)[] = [
      (budget) => cusumLimit(1, ampsArl(budget)),
      (budget) => ewmaWidth(0.1, ampsArl(budget)),
      (budget) => cusumLimit(0.75, countArl(budget)),
    ];
    for (const limitAt of charts) {
      const limits = BUDGETS.map(limitAt);
      for (const [at, limit] of limits.slice(1).entries()) expect(limits[at]! - limit).toBeGreaterThan(0.2);
    }
  });

  // tests/core/alarms/spc.test.ts holds the same limits against R's package spc.
  it.each(BUDGETS)('%d a year: run lengths of the chain of states are what was asked for', (budget) => {
    for (const [k, wanted] of [
      [1, ampsArl(budget)],
      [0.75, countArl(budget)],
    ] as const) {
      const ratio = cusumArl({ k, h: cusumLimit(k, wanted), shift: 0 }) / wanted;
      expect(ratio).toBeGreaterThan(0.99);
      expect(ratio).toBeLessThan(1.08);
    }
    const ewma = ewmaArl({ lambda: 0.1, width: ewmaWidth(0.1, ampsArl(budget)), shift: 0 });
    expect(ewma / ampsArl(budget)).toBeGreaterThan(0.98);
    expect(ewma / ampsArl(budget)).toBeLessThan(1.4);
  });

  it('at 2 a year is kept by random values themselves', () => {
    const [k, wanted] = [0.75, countArl(2)];
    const h = cusumLimit(k, wanted);
    const next = normals(77);
    let alarms = 0;
    let sums = newCusum();
    const steps = 400 * wanted;
    for (let i = 0; i < steps; i++) {
      updateCusum(sums, next(), k);
      if (sums.high <= h) continue;
      alarms++;
      sums = newCusum();
    }
    // 400 are expected: two standard errors are 10 %, and the limit may be 8 % long.
    expect(alarms).toBeGreaterThan(0.82 * 400);
    expect(alarms).toBeLessThan(1.1 * 400);
  });
});

describe('medianSize', () => {
  it('is the number of values whose median strays by the limit once in so many', () => {
    // One in 10,000 is 3.719 standard errors (tables of the normal distribution).
    const size = medianSize({ limit: 1, arl: 10_000, learnedFrom: 0 });
    expect(size).toBe(Math.ceil((1.2533 * 3.719) ** 2));
    const next = normals(5);
    let far = 0;
    for (let i = 0; i < 200_000; i++) {
      const values = Array.from({ length: size }, next).sort((a, b) => a - b);
      if ((values[(size - 1) >> 1]! + values[size >> 1]!) / 2 > 1) far++;
    }
    // 20 are expected; three standard errors are 13.
    expect(far).toBeGreaterThan(6);
    expect(far).toBeLessThan(34);
  });
  it('asks for more where the normal was learned from few values, and for ever where from too few', () => {
    const of = (learnedFrom: number): number => medianSize({ limit: 2, arl: 300_000, learnedFrom });
    expect(of(0)).toBeLessThan(of(40));
    expect(of(40)).toBeLessThan(of(12));
    expect(of(5)).toBe(Infinity);
  });
});

describe('widenFor', () => {
  it.each([0.3, 0.5, 0.7])('keeps the run length on AR(1) data of %d, and without it none is kept', (phi) => {
    const k = 0.5;
    const wanted = 1000;
    const h = cusumLimit(k, wanted);
    const runLength = (widen: number): number => {
      let [steps, alarms] = [0, 0];
      for (const seed of [1, 2, 3, 4]) {
        const next = autoregressive(seed, phi);
        let sums = newCusum();
        for (let i = 0; i < 100_000; i++, steps++) {
          updateCusum(sums, next() / widen, k);
          if (sums.high <= h) continue;
          alarms++;
          sums = newCusum();
        }
      }
      return steps / Math.max(1, alarms);
    };
    expect(runLength(1)).toBeLessThan(wanted / 2);
    // Two standard errors of a run length that was measured by some 300 alarms are 12 %.
    expect(runLength(autocorrelationFactor(phi))).toBeGreaterThan(0.88 * wanted);
  });
});

/** Feeds scenes to watches as the engine does; counts how often one begins to stand. */
function alarmsOf(watches: Watch[], scenes: Iterable<Scene>): number {
  const each = watches.map((watch) => ({ watch, memory: watch.initialMemory?.() ?? {}, standing: false }));
  let begun = 0;
  for (const scene of scenes) {
    for (const one of each) {
      const { is } = one.watch.evaluate(scene, one.memory);
      if (is === 'active' && !one.standing) begun++;
      if (is !== 'cannot-tell') one.standing = is === 'active';
    }
  }
  return begun;
}

/** A healthy pump, 12 runs a day for so many years, its normal learnt from its own first week. */
function* pumpYears(plan: { amps: () => number; years: number }): Generator<Scene> {
  const learned = Array.from({ length: 42 }, plan.amps);
  const baseline = usualBaseline({ amps: normalOf(learned)!, cyclesPerDay: normalOf([12])! });
  const cycles: Cycle[] = [];
  for (let run = 0; run < plan.years * 365 * 12; run++) {
    const startedMs = T0 + run * (DAY / 12);
    const cycle: Cycle = {
      pump: 0,
      startedMs,
      stoppedMs: startedMs + 120_000,
      ranS: 120,
      readings: 120,
      amps: plan.amps(),
      flags: [],
    };
    cycles.push(cycle);
    if (cycles.length > 40) cycles.shift();
    // A copy, as who keeps the scenes would see later runs in earlier ones.
    yield sceneOf({ card: one, cycle, cycles: [...cycles], baseline, atMs: cycle.stoppedMs, why: 'cycle' });
  }
}

interface Of {
  card: Card;
  atMs: number;
  why: Scene['trigger'];
  baseline: Baseline;
  cycle?: Cycle;
  cycles?: Cycle[];
  day?: DayEvent;
  habit?: Habit;
  days?: DayEvent[];
}

function sceneOf(of: Of): Scene {
  const { card, cycle, cycles = [], baseline, day, atMs, why, habit = newHabit(), days = [] } = of;
  const pump: Scene['pump'] = {
    index: 0,
    card: card.pumps[0]!,
    cycles,
    startsToday: 0,
    habit,
    baseline,
    pinned: baseline,
  };
  return {
    atMs,
    trigger: why,
    well: {
      card,
      minutes: [],
      days,
      dayStartedMs: T0,
      dayEndsMs: T0 + DAY,
      date: '2026-03-02',
      nodes: [],
      channels: [],
      water: {},
    },
    pump,
    pumps: [pump],
    ...(cycle && { cycle }),
    ...(day && { day, dayS: 86_400 }),
  };
}

describe('amps-high and amps-low, twenty well-years each', () => {
  // What they may raise by chance: 6 of 7 parts of 0.05 a year, 0.86 in 20 years. Three would be
  // chance once in seventeen.
  it.each<[string, number, number]>([
    ['a steady pump (0.6 %), AR(1) 0.4', 0.006, 0.4],
    ['a wild one (2 %), AR(1) 0.4', 0.02, 0.4],
    ['hangs together more than was assumed: AR(1) 0.7', 0.012, 0.7],
  ])('%s', (_name, spread, phi) => {
    let alarms = 0;
    for (let well = 0; well < 10; well++) {
      const next = autoregressive(100 + well, phi);
      const amps = (): number => 8 * (1 + spread * next());
      alarms += alarmsOf([ampsHigh, ampsLow], pumpYears({ amps, years: 2 }));
    }
    expect(alarms).toBeLessThanOrEqual(2);
  });
  it('heavy tails: one run in fifty is far off', () => {
    const next = autoregressive(7, 0.4);
    const kick = uniforms(8);
    const amps = (): number => 8 * (1 + 0.008 * next() * (kick() < 0.02 ? 6 : 1));
    expect(alarmsOf([ampsHigh, ampsLow], pumpYears({ amps, years: 10 }))).toBe(0);
  });
  it('and a step of 4 % is found in each of ten wells, within forty runs', () => {
    for (let well = 0; well < 10; well++) {
      const next = autoregressive(200 + well, 0.4);
      let run = 0;
      const amps = (): number => 8 * (1 + 0.006 * next()) * (run++ < 42 + 60 ? 1 : 0.96);
      const scenes = [...pumpYears({ amps, years: 102 / 4380 })];
      expect(alarmsOf([ampsLow], scenes)).toBe(1);
      run = 0;
      expect(alarmsOf([ampsLow], scenes.slice(0, 60))).toBe(0);
    }
  });
});

describe('a larger budget', () => {
  /** Runs from a step of current until the alarm, for one steady or wild pump. */
  function runsUntilFound(
    seed: number,
    { falseAlarmsPerYear, spread, step }: { falseAlarmsPerYear: number; spread: number; step: number },
  ): number {
    const next = autoregressive(seed, 0.4);
    let run = 0;
    const amps = (): number => 8 * (1 + spread * next()) * (run++ < 42 + 60 ? 1 : 1 - step);
    const scenes = [...pumpYears({ amps, years: 200 / 4380 })];
    const card = { ...one, falseAlarmsPerYear };
    const memory = ampsLow.initialMemory?.() ?? {};
    for (const scene of scenes) scene.well.card = card;
    const at = scenes.findIndex((scene) => ampsLow.evaluate(scene, memory).is === 'active');
    return at - 60 + 1;
  }

  /** Days of so many times the usual starts, in runs of half the usual length, until the alarm. */
  function daysUntilFound(falseAlarmsPerYear: number, times: number): number {
    const baseline = usualBaseline({
      cyclesPerDay: normalOf([11, 12, 12, 12, 13])!,
      ranSPerDay: normalOf([1440, 1440, 1440])!,
    });
    const card = { ...one, falseAlarmsPerYear };
    const memory = cycleCount.initialMemory!();
    const habit = newHabit();
    for (let days = 1; days < 60; days++) {
      const atMs = T0 + days * DAY;
      const date = new Date(atMs - DAY).toISOString().slice(0, 10);
      const cycles = 12 * times;
      const day: DayEvent = { event: 'day', well: 'a', date, cycles, ranS: cycles * 60, heardS: 86_400 };
      const scene = sceneOf({ card, atMs, why: 'day', baseline, day, habit, days: [day] });
      if (cycleCount.evaluate(scene, memory).is === 'active') return days;
    }
    return Infinity;
  }

  it('finds starts that have doubled or trebled days sooner', () => {
    const budgets = [0.02, 0.05, 0.5, 2];
    expect(budgets.map((budget) => daysUntilFound(budget, 2))).toEqual([7, 7, 5, 4]);
    expect(budgets.map((budget) => daysUntilFound(budget, 3))).toEqual([4, 4, 3, 2]);
  });

  it.each([
    ['a steady pump', 0.006, 0.036],
    ['a steady pump, a step that no generator makes', 0.006, 0.16],
    ['a wild one', 0.02, 0.16],
  ])('finds a step of current runs sooner: %s', (_name, spread, step) => {
    const seeds = Array.from({ length: 10 }, (_, at) => 300 + at);
    const mean = (falseAlarmsPerYear: number): number =>
      seeds.reduce((sum, seed) => sum + runsUntilFound(seed, { falseAlarmsPerYear, spread, step }), 0) / 10;
    const runs = [0.01, 0.05, 0.5, 5].map(mean);
    const [least, usual, more, most] = runs;
    // Far past the limit half of eleven runs and half of twelve are six.
    if (step < 0.1) expect(usual).toBeLessThan(least!);
    else expect(usual).toBeLessThanOrEqual(least!);
    expect(more).toBeLessThan(usual!);
    expect(most).toBeLessThan(more!);
    expect(least).toBeLessThanOrEqual(12);
    expect(most).toBeGreaterThanOrEqual(3);
  });
});

describe('cycle-count, fifty well-years of a household', () => {
  it('says nothing of busy and idle days, by weekday, by guests and by season', () => {
    const next = normals(31);
    const guests = uniforms(32);
    const baseline = usualBaseline({
      cyclesPerDay: normalOf([10, 12, 14, 9, 16])!,
      ranSPerDay: normalOf([1400, 1500])!,
    });
    const habit = newHabit();
    const lines: DayEvent[] = [];
    let days = 0;
    let left = 0;
    function* household(): Generator<Scene> {
      for (let day = 0; day < 50 * 365; day++) {
        if (left > 0) left--;
        else if (guests() < 0.02) left = 7;
        const season = 1 + 0.4 * Math.sin((2 * Math.PI * day) / 365);
        const weekend = day % 7 >= 5 ? 1.5 : 1;
        const many = (left > 0 ? 2.5 : 1) * season * weekend * Math.exp(0.35 * next());
        const cycles = Math.round(12 * many);
        const atMs = T0 + (day + 1) * DAY;
        const date = new Date(atMs - DAY).toISOString().slice(0, 10);
        const ranS = cycles * 120 * Math.exp(0.15 * next());
        days++;
        const line: DayEvent = { event: 'day', well: 'a', date, cycles, ranS, heardS: 86_400 };
        lines.push(line);
        if (lines.length > MAX_DAYS) lines.shift();
        yield sceneOf({ card: one, atMs, why: 'day', baseline, day: line, habit, days: lines });
        addHabitDay(habit, date, { cycles, ranS, longestRunS: 400, longestRestS: 30_000 });
        closeHabitDay(habit);
      }
    }
    expect(alarmsOf([cycleCount], household())).toBe(0);
    expect(days).toBe(18_250);
  });
});
