/** When a normal is learnt, from what, how it moves, and what it never learns. */
import { noneBecauseText } from '../../../src/core/baseline/reason-text.ts';
import { describe, expect, it } from 'vitest';
import type { DayEvent } from '../../../shared/api/events.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import type { Baseline } from '../../../src/core/baseline/baseline.ts';
import { ampsAtMid, setAmpsAtMid } from '../../../src/core/baseline/comparable-amps.ts';
import { baselineBefore } from '../../../src/core/baseline/forget-days.ts';
import {
  emittedMedians,
  learnCycle,
  learnDay,
  newLearning,
  pinBaseline,
  resetLearning,
  type Learning,
  type DayResult,
} from '../../../src/core/baseline/learn.ts';
import { startsLimit } from '../../../src/core/baseline/motor-starts-limit.ts';
import type { Card, PumpCard } from '../../../src/core/domain/card.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';

const T0 = Date.UTC(2026, 2, 2);
const DAY_MS = 86_400_000;
const pump: PumpCard = { id: 'p1', control: 'pressure-switch', motorW: 746, phase: 1, maxAmps: 9.8 };
const card: Card = {
  well: 'north-paddock',
  timeZone: 'UTC',
  altitudeM: 0,
  altitudeKnown: true,
  uses: ['house'],
  pumps: [pump],
  switch: {},
  reads: [],
};

interface DayPlan {
  cycles?: number;
  amps?: number;
  ranS?: number;
  cutIn?: number;
  heard?: number;
  dayS?: number;
  leak?: number;
  standing?: AlarmKind[];
  pump?: PumpCard;
  card?: Card;
  airKpa?: number;
  flags?: Cycle['flags'];
}

/**
 * Days through the learner, as the engine feeds them; returns the last lesson and all that were
 * told.
 */
function live(
  days: DayPlan[],
  state: Learning = newLearning(),
  before?: { baseline?: Baseline; pinned?: Baseline; fromDay?: number },
) {
  let baseline = before?.baseline;
  let pinned = before?.pinned;
  const reported: number[] = [];
  let lesson: DayResult | undefined;
  for (const [at, plan] of days.entries()) {
    const day = (before?.fromDay ?? 0) + at;
    const count = plan.cycles ?? 8;
    for (let i = 0; i < count; i++) learnCycle(state, cycleOf(day, i, plan), baseline);
    const line: DayEvent = {
      event: 'day',
      well: card.well,
      date: new Date(T0 + day * DAY_MS).toISOString().slice(0, 10),
      cycles: count,
      ranS: count * (plan.ranS ?? 120),
      heardS: plan.heard ?? 86_400,
      ...(count > 0 && { ampsMedian: plan.amps ?? 8 }),
      ...(plan.leak !== undefined && { leakLPerDay: plan.leak }),
    };
    const atMs = T0 + (day + 1) * DAY_MS;
    lesson = learnDay(state, {
      day: line,
      atMs,
      dayS: plan.dayS ?? 86_400,
      card: plan.card ?? card,
      pump: plan.pump ?? pump,
      activeAlarms: plan.standing ?? [],
      baseline,
      pinned,
      prechargeKpa: plan.airKpa,
    });
    if (lesson.baseline) baseline = lesson.baseline;
    if (lesson.first) pinned ??= lesson.baseline;
    if (lesson.shouldEmit) reported.push(day);
  }
  return { state, lesson: lesson!, baseline, pinned, reported };
}

function cycleOf(day: number, at: number, plan: DayPlan): Cycle {
  const startedMs = T0 + day * DAY_MS + at * 3_600_000;
  const ranS = (plan.ranS ?? 120) + (at % 3) * 4;
  return {
    pump: 0,
    startedMs,
    stoppedMs: startedMs + ranS * 1000,
    ranS,
    ...(at > 0 && { restedS: 3400 }),
    amps: (plan.amps ?? 8) + 0.02 * ((at % 5) - 2),
    readings: 100,
    cutInKpa: plan.cutIn ?? 276,
    cutOutKpa: (plan.cutIn ?? 276) + 138,
    flags: plan.flags ?? [],
    shape: {
      everyS: 10,
      amps: Array.from({ length: 12 }, (_, i) => 8.3 - 0.05 * i),
      kpa: Array.from({ length: 12 }, (_, i) => 276 + 12 * i),
    },
  };
}

const days = (count: number, plan: DayPlan = {}): DayPlan[] => Array.from({ length: count }, () => plan);

describe('learnDay', () => {
  it('knows a normal after five healthy days with twenty cycles', () => {
    expect(live(days(4)).baseline).toBeUndefined();
    const { lesson, reported, baseline } = live(days(5));
    expect(lesson).toMatchObject({ taught: true, first: true, shouldEmit: true });
    expect(reported).toEqual([4]);
    expect(baseline!.amps!.median).toBeCloseTo(8, 1);
    expect(baseline!.amps!.spread).toBeCloseTo(1.4826 * 0.02, 1);
    expect(baseline).toMatchObject({
      cyclesPerDay: { median: 8 },
      pinned: false,
      longestRunS: 128,
      longestRestS: 3400,
    });
    expect(baseline!.shape!.kpa[0]).toBeCloseTo(276, 0);
    expect(baseline!.ampsAtMid!.median).toBeCloseTo(8.025, 1);
  });
  it('waits for ten days where the pump hardly runs', () => {
    const seldom = [...days(9, { cycles: 0 }), ...days(1, { cycles: 3 })];
    expect(live(seldom.slice(0, 9)).baseline).toBeUndefined();
    expect(live(seldom).baseline).toMatchObject({ cyclesPerDay: { median: 0 } });
  });
  it.each<[string, DayPlan]>([
    ['a day heard for less than 95 %', { heard: 80_000 }],
    ['a day on which something stood', { standing: ['dry-run'] }],
    ['amps over the motor’s maximum', { amps: 11 }],
    ['more starts than the motor allows', { cycles: 120, ranS: 30 }],
    ['runs too short for any tank', { cycles: 40, ranS: 1 }],
    ['a pump that hardly stops', { cycles: 10, ranS: 8200 }],
    ['a bad leak', { leak: 900 }],
    ['air over cut-in', { airKpa: 310 }],
  ])('learns nothing from %s', (_name, plan) => {
    const { baseline, lesson } = live(days(20, plan));
    expect(baseline).toBeUndefined();
    expect(lesson.taught).toBe(false);
    expect(lesson.because).toBeTruthy();
  });
  it.each<[string, number, number, boolean]>([
    ['a whole day of 23 h', 82_800, 82_800, true],
    ['a day of 25 h heard for 24', 86_400, 90_000, true],
    ['a day of 25 h heard for 23', 82_800, 90_000, false],
    ['a day of 23 h heard for 21.5', 77_400, 82_800, false],
  ])('%s: what was heard is a share of its true length', (_name, heard, dayS, taught) => {
    expect(live([{ heard, dayS }]).lesson.taught).toBe(taught);
  });
  it('takes a tank that the card says is small as it is, and no small one that it does not', () => {
    // 7.6 L at 10 gpm (0.63 L/s): 2.3 L of drawdown, in 2.4 s at half again the rated flow.
    const small = { ...pump, ratedLPerS: 0.63 };
    const plan = { cycles: 150, ranS: 6, pump: small };
    const tiny: Card = { ...card, tank: { kind: 'captive-air', volumeL: 7.6 } };
    expect(live(days(5, { ...plan, card: tiny })).baseline).toMatchObject({ cyclesPerDay: { median: 150 } });
    const large: Card = { ...card, tank: { kind: 'captive-air', volumeL: 167 } };
    expect(live(days(5, { ...plan, card: large })).lesson.because).toMatchObject({
      reason: 'runs-too-short-for-tank',
      figures: { tankL: 167 },
    });
    expect(live(days(5, plan)).lesson.because).toMatchObject({
      reason: 'too-many-starts',
      figures: { max: 100 },
    });
  });
  it('guests for a week, and a week away, leave the normal as it was', () => {
    const { baseline: before } = live(days(21));
    for (const odd of [
      { cycles: 30, ranS: 200 },
      { cycles: 0 },
      { cycles: 30, ranS: 1500 },
    ] satisfies DayPlan[]) {
      const { baseline } = live([...days(14), ...days(7, odd), ...days(8)]);
      for (const name of ['amps', 'cutInKpa', 'ranS', 'cyclesPerDay', 'ranSPerDay'] as const)
        expect(baseline![name]!.median).toBeCloseTo(before![name]!.median, 6);
    }
    const { baseline: once } = live([...days(14), { cycles: 3, ranS: 40_000 }, ...days(5)]);
    expect(once!.longestRunS).toBe(128);
  });
  it('learns on where only a habit departed or a node was away for a while', () => {
    expect(live(days(5, { standing: ['cycle-count', 'node-silent'] })).baseline).toBeDefined();
  });
  it('says once why there is no normal here', () => {
    const { reported, lesson } = live(days(12, { amps: 11 }));
    expect(reported).toEqual([4]);
    expect(noneBecauseText(live(days(5, { amps: 11 })).lesson.noneBecause!)).toBe(
      "no normal values found here, because the pump draws 11.0 A, over the motor's maximum of 9.8 A",
    );
    expect(lesson.noneBecause).toBeUndefined();
  });
  it('is silent while nothing moves, and tells a move once', () => {
    const { reported, baseline, pinned } = live([...days(20), ...days(20, { amps: 8.4 })]);
    expect(reported[0]).toBe(4);
    expect(reported.slice(1).every((day) => day >= 20)).toBe(true);
    expect(reported.length).toBeLessThanOrEqual(3);
    expect(baseline!.amps!.median).toBeCloseTo(8.4, 1);
    expect(pinned!.amps!.median).toBeCloseTo(8, 1);
  });
  it('tells a slow drift when its steps add up', () => {
    const drift = Array.from({ length: 60 }, (_, day) => ({ amps: 8 - 0.008 * day }));
    const { reported, pinned, baseline } = live(drift);
    expect(reported.length).toBeGreaterThanOrEqual(3);
    expect(reported.length).toBeLessThanOrEqual(8);
    expect(baseline!.amps!.median / pinned!.amps!.median).toBeLessThan(0.955);
  });
  it('is frozen while a fault stands', () => {
    const { baseline } = live([...days(6), ...days(10, { amps: 7, standing: ['amps-low'] })]);
    expect(baseline!.amps!.median).toBeCloseTo(8, 1);
  });
  it('leaves out runs that were none', () => {
    const { state } = live([{ flags: ['failed-start'] }]);
    expect(state.recentDays).toHaveLength(0);
  });
  it('is saved and loaded at any point without a difference', () => {
    const whole = live([...days(9), ...days(4, { amps: 8.2 })]);
    const part = live(days(3));
    const rest = live(
      [...days(6), ...days(4, { amps: 8.2 })],
      JSON.parse(JSON.stringify(part.state)) as Learning,
      { fromDay: 3 },
    );
    expect(rest.baseline).toEqual(whole.baseline);
    expect(JSON.stringify(rest.state)).toBe(JSON.stringify(whole.state));
  });
  it('stays small: under 2.2 KiB after a busy month', () => {
    const { state } = live(days(30, { cycles: 60, ranS: 100.123 }));
    for (let i = 0; i < 60; i++) learnCycle(state, cycleOf(30, i % 20, {}));
    expect(JSON.stringify(state).length).toBeLessThan(2253);
  });
});

/** So many days, and then an alarm that takes back those from `fromDay` on. */
function takenBack(plans: DayPlan[], fromDay: number) {
  const { state, baseline, pinned } = live(plans);
  const sinceMs = T0 + fromDay * DAY_MS;
  const fromDate = new Date(sinceMs).toISOString().slice(0, 10);
  const before = baselineBefore(state, { sinceMs, fromDate, baseline, pinned }) ?? baseline!;
  const emitted = { ...before, lastEmitted: emittedMedians(before) };
  return { state, baseline: emitted, pinned: pinned!, fromDay: plans.length };
}

describe('learnDay after days were taken back', () => {
  const wornFor = (count: number): DayPlan[] => days(count, { amps: 8.5, cycles: 16 });
  it('one healthy day, or two, is no normal: what was learned first stands in', () => {
    const { state, ...before } = takenBack([...days(19), ...wornFor(21)], 19);
    expect(state.recentDays).toHaveLength(0);
    expect(before.baseline).toMatchObject({ amps: before.pinned.amps, cyclesPerDay: { median: 8, n: 5 } });
    for (const count of [1, 2]) {
      const copy = JSON.parse(JSON.stringify(state)) as Learning;
      const after = live(days(count, { amps: 7.5, cycles: 4 }), copy, before);
      expect(after.lesson).toMatchObject({ taught: true, shouldEmit: false });
      expect(after.baseline).toMatchObject({ amps: before.pinned.amps, cyclesPerDay: { median: 8, n: 5 } });
    }
  });
  it('three healthy days are one again', () => {
    const { state, ...before } = takenBack([...days(19), ...wornFor(21)], 19);
    const { baseline, lesson } = live(days(3, { amps: 7.5, cycles: 4 }), state, before);
    expect(lesson.shouldEmit).toBe(true);
    expect(baseline).toMatchObject({ amps: { n: 12 }, cyclesPerDay: { median: 4, n: 3 } });
    expect(baseline!.amps!.median).toBeCloseTo(7.5, 1);
  });
  it('where some are left, those count', () => {
    const { state, ...before } = takenBack([...days(14), ...wornFor(4)], 14);
    const { baseline } = live(days(1), state, before);
    expect(baseline).toMatchObject({ cyclesPerDay: { median: 8, n: 15 } });
  });
  it('goes on as ever on a well that seldom runs and lost no day', () => {
    const seldom = [...days(9, { cycles: 0 }), ...days(1, { cycles: 3 })];
    const { baseline } = live([...seldom, ...days(1, { cycles: 4 })]);
    expect(baseline!.amps!.n).toBe(7);
  });
  it('does not tell that there is no normal while one is in use', () => {
    const { state, ...before } = takenBack(days(9), 1);
    expect(state.days).toBe(1);
    const { baseline, lesson, reported } = live(days(9, { leak: 900 }), state, before);
    expect(lesson).toMatchObject({ taught: false, because: { reason: 'bad-leak' } });
    expect(reported).toEqual([]);
    expect(baseline).toEqual(before.baseline);
    const pinned = pinBaseline(undefined, { amps: 8 }, T0);
    expect(live(days(12, { leak: 900 }), newLearning(), { baseline: pinned, pinned }).reported).toEqual([]);
  });
  it('a repair forgets that days were taken back', () => {
    const { state } = takenBack([...days(19), ...wornFor(21)], 19);
    resetLearning(state);
    expect(state).toEqual(newLearning());
  });
});

describe('restartLearning and pinBaseline', () => {
  it('forgets everything', () => {
    const { state } = live(days(10));
    resetLearning(state);
    expect(state).toEqual(newLearning());
  });
  it('pins what a person says over what was learnt, with the learnt spread', () => {
    const { baseline } = live(days(6));
    const pinned = pinBaseline(baseline, { amps: 7.9 }, T0);
    expect(pinned).toMatchObject({
      pinned: true,
      amps: { median: 7.9, spread: baseline!.amps!.spread, n: 0 },
    });
    expect(pinned.cutInKpa).toEqual(baseline!.cutInKpa);
    expect(pinned.ampsAtMid).toBeUndefined();
  });
  it('pins on an empty page with the usual spreads', () => {
    expect(pinBaseline(undefined, { amps: 8, cutInKpa: 276 }, T0)).toEqual({
      atMs: T0,
      pinned: true,
      amps: { median: 8, spread: 0.12, n: 0 },
      cutInKpa: { median: 276, spread: 14, n: 0 },
    });
  });
  it('keeps what a person pinned while the rest is learnt', () => {
    const pinned = pinBaseline(undefined, { amps: 7.5 }, T0);
    const { baseline } = live(days(6), newLearning(), { baseline: pinned, pinned });
    expect(baseline).toMatchObject({
      pinned: true,
      amps: { median: 7.5, n: 0 },
      cyclesPerDay: { median: 8 },
    });
  });
});

describe('ampsAtMid', () => {
  it('is the current at the middle of the band, whatever else the run did', () => {
    expect(ampsAtMid(cycleOf(0, 0, {}), { cutInKpa: 276, cutOutKpa: 414 })).toBeCloseTo(8, 1);
  });
  it('is noted on a cycle once there is a baseline', () => {
    const cycle = cycleOf(0, 0, {});
    setAmpsAtMid(cycle, undefined);
    expect(cycle.ampsAtMid).toBeUndefined();
    setAmpsAtMid(cycle, live(days(5)).baseline);
    expect(cycle.ampsAtMid).toBeCloseTo(8, 1);
  });
  it('is absent where the run was never there, or has no shape', () => {
    expect(ampsAtMid(cycleOf(0, 0, {}), { cutInKpa: 500, cutOutKpa: 640 })).toBeUndefined();
    const { shape: _shape, ...bare } = cycleOf(0, 0, {});
    expect(ampsAtMid(bare, { cutInKpa: 276, cutOutKpa: 414 })).toBeUndefined();
  });
});

describe('startsLimit', () => {
  it.each<[string, Partial<PumpCard>, number]>([
    ['nothing known', {}, 300],
    ['1/2 hp', { motorW: 373 }, 300],
    ['3/4 hp (Water Systems Council: up to 3/4 hp)', { motorW: 559 }, 300],
    ['1 hp, one phase', { motorW: 746, phase: 1 }, 100],
    ['3 hp, three phases', { motorW: 2237, phase: 3 }, 300],
    ['10 hp, one phase', { motorW: 7457, phase: 1 }, 50],
    ['10 hp, three phases', { motorW: 7457, phase: 3 }, 100],
  ])('of %s', (_name, change, perDay) => {
    expect(startsLimit({ id: 'p1', control: 'pressure-switch', ...change }).perDay).toBe(perDay);
  });
});
