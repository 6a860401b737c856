/** What is taken back when an alarm says that its condition began days ago. */
import { describe, expect, it } from 'vitest';
import type { Baseline } from '../../../src/core/baseline/baseline.ts';
import { baselineOf } from '../../../src/core/baseline/baseline-of-days.ts';
import { baselineBefore } from '../../../src/core/baseline/forget-days.ts';
import {
  addDay,
  addSample,
  clearToday,
  newLearning,
  type Learning,
} from '../../../src/core/baseline/learning.ts';

const T0 = Date.UTC(2026, 2, 2);
const DAY_MS = 86_400_000;
const dateOf = (day: number): string => new Date(T0 + day * DAY_MS).toISOString().slice(0, 10);

/** Days of eight runs, each with its amps. */
function learned(ampsByDay: readonly number[]): { state: Learning; baseline: Baseline } {
  const state = newLearning();
  for (const [day, amps] of ampsByDay.entries()) {
    for (let at = 0; at < 8; at++) {
      const startedMs = T0 + day * DAY_MS + at * 3_600_000;
      const run = { pump: 0, startedMs, stoppedMs: startedMs + 120_000, ranS: 120, readings: 100, flags: [] };
      addSample(state, { ...run, amps: amps + 0.01 * (at % 3) }, { ampsAtMid: undefined, hour: at });
    }
    addDay(state, dateOf(day), { cycles: 8, ranS: 960 });
    clearToday(state);
  }
  const atMs = T0 + ampsByDay.length * DAY_MS;
  return { state, baseline: baselineOf(state, { atMs, date: dateOf(ampsByDay.length - 1) }, undefined) };
}

const healthy = (days: number): number[] => Array.from({ length: days }, () => 8);
const order = (day: number, baseline: Baseline, pinned?: Baseline) => ({
  sinceMs: T0 + day * DAY_MS + 3_600_000,
  fromDate: dateOf(day),
  baseline,
  pinned,
});

describe('baselineBefore', () => {
  it('takes back the day in which it began and all after it', () => {
    const { state, baseline } = learned([...healthy(8), 7, 7, 7, 7]);
    expect(baseline.amps!.median).toBeCloseTo(7, 1);
    const before = baselineBefore(state, order(8, baseline))!;
    expect(before.amps!.median).toBeCloseTo(8, 1);
    expect(before.atMs).toBe(T0 + 8 * DAY_MS + 3_600_000);
    expect(state).toMatchObject({ days: 8, cycles: 64 });
    expect(state.habit.days).toHaveLength(8);
  });
  it('changes nothing where it began after the last day', () => {
    const { state, baseline } = learned(healthy(8));
    const saved = JSON.stringify(state);
    expect(baselineBefore(state, order(8, baseline))).toBeUndefined();
    expect(JSON.stringify(state)).toBe(saved);
  });
  it('falls back on what was learned first where fewer than three days are left', () => {
    const { baseline: pinned } = learned(healthy(5));
    const { state, baseline } = learned([...healthy(5), 7, 7, 7, 7, 7, 7]);
    const before = baselineBefore(state, order(5, baseline, pinned))!;
    expect(before).toMatchObject({ atMs: pinned.atMs, amps: pinned.amps });
  });
  it('falls back where the days of three weeks are gone, though runs of older ones are left', () => {
    const { state, baseline } = learned(healthy(6));
    const pinned = { ...baseline, amps: { median: 8.1, spread: 0.1, n: 30 } };
    for (let day = 6; day < 30; day++) addDay(state, dateOf(day), { cycles: 0, ranS: 0 });
    const before = baselineBefore(state, order(7, baseline, pinned))!;
    expect(state.recentDays).toHaveLength(6);
    expect(state.habit.days).toHaveLength(0);
    expect(before).toMatchObject({ amps: pinned.amps, cyclesPerDay: { n: 6 } });
  });
  it('leaves the baseline where that was learned after it began too', () => {
    const { state, baseline } = learned([8, 8, 7, 7, 7, 7]);
    expect(baselineBefore(state, order(2, baseline, baseline))).toBeUndefined();
    expect(state.recentDays).toHaveLength(2);
  });
  it('keeps the usual shape, of which no day can be taken back, and what was reported last', () => {
    const { state, baseline } = learned([...healthy(8), 7, 7]);
    const shape = { everyS: 10, amps: [8], ampsSpread: [0.1], kpa: [276], kpaSpread: [1] };
    const before = baselineBefore(state, order(8, { ...baseline, shape, lastEmitted: { amps: 7.5 } }))!;
    expect(before).toMatchObject({ shape, lastEmitted: { amps: 7.5 } });
  });
});
