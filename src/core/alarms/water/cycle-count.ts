/**
 * Cycles a day have departed from this well's own habit. People's habits do that all the time:
 * guests double them, an empty week has none, a garden makes more and longer runs at its own hours.
 * So it is told only what habits do not do: for days on end twice the starts with runs that are
 * shorter than they were, many times the usual count of such a day, round the clock, twice the
 * highest day on each of some days (./changed-habit.ts), or more for longer than guests stay
 * (./busy-weeks.ts).
 */
import { DAY_MS } from '../../../../shared/units/duration.ts';
import { countHours, normalStarts } from '../../baseline/habit.ts';
import type { Normal } from '../../baseline/baseline.ts';
import { updateCusum, newCusum } from '../charts/cusum.ts';
import { runLengthFor } from '../charts/false-alarm-budget.ts';
import { BUSY_DAYS, isBusyOver, busyWeeks, type BusyWeeks } from './busy-weeks.ts';
import { changedHabit, type ChangedHabit } from './changed-habit.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { isAfterReset } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { cusumLimit } from '../charts/run-length.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Starts with short runs: twice the usual with run time of under 0.7 of the usual each. */
const MIN_RATIO = 2;
const MAX_RUN_RATIO = 0.7;
/**
 * Without regard to run time, over the highest of the days before, and with starts in so many
 * hours: people and gardens sleep.
 */
const MANY_RATIO = 4;
const MIN_START_HOURS = 20;
/** A day's count spreads by about this much about its median even in a steady house: log of 1.5. */
const MIN_LOG_SPREAD = 0.4;
const CUSUM_K = 0.75;
/** Under this share of the usual it is not as it was. */
const EMPTY_CLEAR_RATIO = 0.5;
/** Fewer starts than this make no habit that could be departed from. */
const MIN_STARTS = 2;
const MIN_HEARD_FRACTION = 0.9;
const MIN_DAYS_SHORTER = 2;
const MIN_DAYS_MANY = 5;

interface CycleCountMemory {
  /** The upward CUSUM of the days' counts. */
  high: number;
  /** Days in a row with more starts and shorter runs, and with very many starts. */
  shorter: number;
  many: number;
  /** The normal count that the weeks were over for which it is active. */
  busyOver?: number;
}

export const cycleCount: Watch<CycleCountMemory> = {
  alarm: 'cycle-count',
  scope: 'pump',
  triggers: ['day'],
  initialMemory: () => ({ high: 0, shorter: 0, many: 0 }),
  evaluate,
};

function evaluate(scene: Scene, memory: CycleCountMemory): Evaluation {
  const { day, dayS = 86_400 } = scene;
  const normal = normalStartsOf(scene);
  const cycles = day?.cycles;
  if (!normal) return cannotTell('learning');
  if (normal.starts < MIN_STARTS) return cannotTell('too-few-runs');
  if (cycles === undefined) return cannotTell('too-few-readings');
  if ((day?.heardS ?? 0) < MIN_HEARD_FRACTION * dayS) return cannotTell('too-few-readings');
  if (!isAfterReset(scene, scene.atMs - 1.3 * dayS * 1000)) return cannotTell('too-few-days');
  // Announced guests or a garden explain more starts; what is wrong besides shows after them.
  if (scene.well.expected !== undefined) return cannotTell('expected');
  const ratio = cycles / normal.starts;
  const shorter = runRatio(scene, cycles) < MAX_RUN_RATIO;
  const spread = Math.max(MIN_LOG_SPREAD, normal.spread);
  const sums = { ...newCusum(), high: memory.high };
  updateCusum(sums, Math.min(4, Math.log(Math.max(0.2, ratio)) / spread), CUSUM_K);
  const h = cusumLimit(CUSUM_K, runLengthFor('cycle-count', 365, scene.well.card));
  memory.high = Math.round(100 * Math.min(2 * h, sums.high)) / 100;
  memory.shorter = ratio >= MIN_RATIO && shorter ? memory.shorter + 1 : 0;
  memory.many = isMany(scene, cycles, normal.starts) ? memory.many + 1 : 0;
  const persisted = memory.shorter >= MIN_DAYS_SHORTER || memory.many >= MIN_DAYS_MANY;
  const weeks = evaluateWeeks(scene, memory);
  if (weeks) return weeks;
  const changed = changedHabit(scene, normal.starts);
  if (changed) return changedFinding(scene, changed, { cycles, normal: normal.starts, times: ratio });
  if (ratio < EMPTY_CLEAR_RATIO) return cannotTell('near-limit');
  if (ratio < (1 + MIN_RATIO) / 2) return CLEAR;
  if (!persisted || sums.high < h) return cannotTell('not-long-enough');
  return finding(scene, { cycles, normal: normal.starts, times: ratio, shorter });
}

/**
 * Starts of such a day: as first learnt, or as this weekday, these weeks and this season have had
 * since, whichever is more; their spread as a share. What grows slowly is not lost by it: runs are
 * compared with those that were first learnt.
 */
function normalStartsOf(scene: Scene): { starts: number; spread: number } | undefined {
  const first = firstLearned(scene);
  if (!first || !scene.day) return undefined;
  const starts = Math.max(first.median, normalStarts(scene.pump.habit, scene.day.date));
  return { starts, spread: first.median > 0 ? first.spread / first.median : 1 };
}

function firstLearned({ pump: { pinned, baseline } }: Scene): Normal | undefined {
  return pinned?.cyclesPerDay ?? baseline?.cyclesPerDay;
}

function isMany(scene: Scene, cycles: number, usual: number): boolean {
  return (
    cycles >= MANY_RATIO * usual &&
    cycles > 1.5 * maxLearned(scene, usual) &&
    countHours(scene.pump.habit.lastDayHourMask) >= MIN_START_HOURS
  );
}

/** Mean run of the day against the usual mean run. */
function runRatio(scene: Scene, cycles: number): number {
  const usual = scene.pump.pinned ?? scene.pump.baseline;
  const ranS = scene.day?.ranS;
  if (
    ranS === undefined ||
    cycles === 0 ||
    !usual?.ranSPerDay ||
    !usual.cyclesPerDay ||
    usual.ranSPerDay.median <= 0
  )
    return 1;
  return ranS / cycles / (usual.ranSPerDay.median / usual.cyclesPerDay.median);
}

function maxLearned(scene: Scene, usual: number): number {
  const before = scene.well.days.slice(0, -MIN_DAYS_MANY).map((day) => day.cycles ?? 0);
  return before.length === 0 ? 2 * usual : Math.max(...before);
}

function changedFinding(
  scene: Scene,
  { direction, days }: ChangedHabit,
  { cycles, normal, times }: { cycles: number; normal: number; times: number },
): Active {
  return {
    is: 'active',
    sinceMs: scene.atMs - days * DAY_MS,
    reason: direction === 'doubled' ? 'starts-over-normal' : 'starts-under-normal',
    figures: { starts: cycles, normalPerDay: normal },
    evidence: { cycles, normal: roundTo(normal, 1), times: roundTo(times), days },
    causes:
      direction === 'doubled'
        ? weighCauses({ 'habit-changed': 0.5, 'open-tap': 0.2, leak: 0.2, 'check-valve': 0.1 })
        : weighCauses({ 'habit-changed': 0.7, 'closed-valve': 0.2, frozen: 0.1 }),
  };
}

function finding(
  scene: Scene,
  seen: { cycles: number; normal: number; times: number; shorter: boolean },
): Active {
  return {
    is: 'active',
    sinceMs: scene.atMs - (seen.shorter ? MIN_DAYS_SHORTER : MIN_DAYS_MANY) * DAY_MS,
    reason: seen.shorter ? 'starts-over-normal-shorter-runs' : 'starts-over-normal',
    figures: { starts: seen.cycles, normalPerDay: seen.normal },
    evidence: { cycles: seen.cycles, normal: roundTo(seen.normal, 1), times: roundTo(seen.times) },
    causes: seen.shorter
      ? weighCauses({
          'tank-air-lost': 0.3,
          'bladder-burst': 0.3,
          leak: 0.15,
          'switch-out-of-set': 0.15,
          'habit-changed': 0.1,
        })
      : weighCauses({
          'habit-changed': 0.35,
          leak: 0.25,
          'open-tap': 0.2,
          'check-valve': 0.1,
          'tank-air-lost': 0.1,
        }),
  };
}

/** What was found stands until it is over; undefined if these weeks are not busy. */
function evaluateWeeks(scene: Scene, memory: CycleCountMemory): Evaluation | undefined {
  const busy = busyWeeks(scene, firstLearned(scene)?.median ?? Infinity);
  if (busy) {
    memory.busyOver = roundTo(busy.normal, 1);
    return weeksFinding(scene, busy);
  }
  if (!memory.busyOver) return undefined;
  if (!isBusyOver(scene, memory.busyOver)) return cannotTell('near-limit');
  delete memory.busyOver;
  return CLEAR;
}

function weeksFinding(scene: Scene, { cycles, normal }: BusyWeeks): Active {
  const times = cycles / normal;
  return {
    is: 'active',
    sinceMs: scene.atMs - BUSY_DAYS * DAY_MS,
    reason: 'starts-over-normal-for-weeks',
    figures: { starts: cycles, normalPerDay: normal, days: BUSY_DAYS },
    evidence: { cycles, normal: roundTo(normal, 1), times: roundTo(times), days: BUSY_DAYS },
    causes: weighCauses({ 'habit-changed': 0.6, 'open-tap': 0.2, leak: 0.2 }),
  };
}
