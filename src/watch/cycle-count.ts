/**
 * Cycles a day have departed from this well's own habit. People's habits do that all the time: guests double them, an empty week
 * has none, a garden makes more and longer runs at its own hours. So it is told only what habits do not do: for days on end twice the
 * starts with runs that are shorter than they were, many times the usual count of such a day, round the clock, or more for longer than
 * guests stay (./busy-weeks.ts).
 */
import { hoursIn, usualStarts } from '../baseline/habit.ts';
import type { Normal } from '../baseline/baseline.ts';
import { cusumStep, newCusum } from './cusum.ts';
import { runLengthFor } from './budget.ts';
import { BUSY_DAYS, busyIsOver, busyWeeks, type BusyWeeks } from './busy-weeks.ts';
import { isFresh, listOf, numberOf } from './facts.ts';
import { figures, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { cusumLimit } from './run-length.ts';
import { weigh } from './weigh.ts';

/** Starts with short runs: twice the usual with run time of under 0.7 of the usual each. */
const MORE = 2;
const SHORTER = 0.7;
/** Without regard to run time, over the highest of the days before, and with starts in so many hours: people and gardens sleep. */
const MANY = 4;
const ROUND_THE_CLOCK = 20;
/** A day's count spreads by about this much about its median even in a steady house: log of 1.5. */
const LEAST_LOG_SPREAD = 0.4;
const K = 0.75;
/** Fewer starts than this make no habit that could be departed from. */
const LEAST_STARTS = 2;
const LEAST_HEARD = 0.9;
const DAYS_SHORTER = 2;
const DAYS_MANY = 5;

export const cycleCount: Watch = {
  alarm: 'cycle-count',
  each: 'pump',
  on: ['day'],
  onDelayS: 0,
  offDelayS: 0,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const { day, dayS = 86_400 } = scene;
  const usual = usualOf(scene);
  const cycles = day?.cycles;
  if (!usual || usual.starts < LEAST_STARTS || cycles === undefined) return undefined;
  if ((day?.heardS ?? 0) < LEAST_HEARD * dayS || !isFresh(scene, scene.atMs - 1.3 * dayS * 1000))
    return undefined;
  // Announced guests or a garden explain more starts; what is wrong besides shows after them.
  if (scene.well.expected !== undefined) return undefined;
  const times = cycles / usual.starts;
  const shorter = runShare(scene, cycles) < SHORTER;
  const spread = Math.max(LEAST_LOG_SPREAD, usual.spread);
  const sums = { ...newCusum(), high: numberOf(memo, 'high', 0) };
  cusumStep(sums, Math.min(4, Math.log(Math.max(0.2, times)) / spread), K);
  const h = cusumLimit(K, runLengthFor('cycle-count', 365, scene.well.card));
  memo['high'] = Math.round(100 * Math.min(2 * h, sums.high)) / 100;
  memo['shorter'] = times >= MORE && shorter ? numberOf(memo, 'shorter', 0) + 1 : 0;
  memo['many'] = isMany(scene, cycles, usual.starts) ? numberOf(memo, 'many', 0) + 1 : 0;
  memo['last'] = [...listOf(memo, 'last'), cycles].slice(-3);
  const told = numberOf(memo, 'shorter', 0) >= DAYS_SHORTER || numberOf(memo, 'many', 0) >= DAYS_MANY;
  const weeks = ofWeeks(scene, memo);
  if (weeks !== 'like others') return weeks;
  if (times < (1 + MORE) / 2) return null;
  if (!told || sums.high < h) return undefined;
  return finding(scene, { cycles, usual: usual.starts, times, shorter });
}

/**
 * Starts of such a day: as first learnt, or as this weekday, these weeks and this season have had since, whichever is more; their spread as a
 * share. What grows slowly is not lost by it: runs are compared with those that were first learnt.
 */
function usualOf(scene: Scene): { starts: number; spread: number } | undefined {
  const first = firstLearnt(scene);
  if (!first || !scene.day) return undefined;
  const starts = Math.max(first.median, usualStarts(scene.pump.habit, scene.day.date));
  return { starts, spread: first.median > 0 ? first.spread / first.median : 1 };
}

function firstLearnt({ pump: { pinned, baseline } }: Scene): Normal | undefined {
  return pinned?.cyclesPerDay ?? baseline?.cyclesPerDay;
}

function isMany(scene: Scene, cycles: number, usual: number): boolean {
  return (
    cycles >= MANY * usual &&
    cycles > 1.5 * mostLearnt(scene, usual) &&
    hoursIn(scene.pump.habit.endedHours) >= ROUND_THE_CLOCK
  );
}

/** Mean run of the day against the usual mean run. */
function runShare(scene: Scene, cycles: number): number {
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

function mostLearnt(scene: Scene, usual: number): number {
  const before = scene.well.days.slice(0, -DAYS_MANY).map((day) => day.cycles ?? 0);
  return before.length === 0 ? 2 * usual : Math.max(...before);
}

function finding(
  scene: Scene,
  seen: { cycles: number; usual: number; times: number; shorter: boolean },
): Finding {
  return {
    sinceMs: scene.atMs - (seen.shorter ? DAYS_SHORTER : DAYS_MANY) * 86_400_000,
    why: `${seen.cycles} starts in the day, ${figures(seen.times)} times this well's usual ${Math.round(seen.usual)}${seen.shorter ? ', with shorter runs' : ''}.`,
    evidence: { cycles: seen.cycles, normal: tidy(seen.usual, 1), times: tidy(seen.times) },
    causes: seen.shorter
      ? weigh({
          'tank-air-lost': 0.3,
          'bladder-burst': 0.3,
          leak: 0.15,
          'switch-out-of-set': 0.15,
          'habit-changed': 0.1,
        })
      : weigh({
          'habit-changed': 0.35,
          leak: 0.25,
          'open-tap': 0.2,
          'check-valve': 0.1,
          'tank-air-lost': 0.1,
        }),
  };
}

/** What was found stands until it is over. */
function ofWeeks(scene: Scene, memo: Memo): Finding | null | undefined | 'like others' {
  const busy = busyWeeks(scene, firstLearnt(scene)?.median ?? Infinity);
  if (busy) {
    memo['busyOver'] = tidy(busy.usual, 1);
    return findingOfWeeks(scene, busy);
  }
  const usual = numberOf(memo, 'busyOver', 0);
  if (usual === 0) return 'like others';
  if (!busyIsOver(scene, usual)) return undefined;
  delete memo['busyOver'];
  return null;
}

function findingOfWeeks(scene: Scene, { cycles, usual }: BusyWeeks): Finding {
  const times = cycles / usual;
  return {
    sinceMs: scene.atMs - BUSY_DAYS * 86_400_000,
    why: `For ${BUSY_DAYS} days running the pump started about ${Math.round(cycles)} times a day, ${figures(times)} times this well's usual ${Math.round(usual)}, in runs as long as ever: more water is used than was.`,
    evidence: { cycles, normal: tidy(usual, 1), times: tidy(times), days: BUSY_DAYS },
    causes: weigh({ 'habit-changed': 0.6, 'open-tap': 0.2, leak: 0.2 }),
  };
}
