/**
 * Two weeks on end with more starts than the three weeks before them and than were first learnt, in
 * runs of the same length: more water is used than was. Guests have left by then, and a garden is
 * watered in long runs; stock and irrigation follow the weather, and are not asked.
 */
import { DAY_MS, DAY_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import { seasonStarts } from '../../baseline/habit.ts';
import type { DayEvent } from '../../../../shared/api/events.ts';
import { isAfterReset } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';

/** Longer than guests usually stay, as the head of this file says (argued, not measured). */
export const BUSY_DAYS = 14;
/** Weeks before, as far as they are kept, and how many of their days are wanted. */
const BEFORE_DAYS = 21;
const MIN_BEFORE_DAYS = 14;
/**
 * The middle of a fortnight whose days scatter by a half (log 0.4) scatters by a seventh: 1.6 is
 * over three of that.
 */
const MIN_MEDIAN_RATIO = 1.6;
/**
 * And none of them is like others: guests of one week, with a full house at the weekend after it,
 * leave a quiet day between.
 */
const MIN_DAY_RATIO = 1.2;
/**
 * Fills between draws are as long as ever; what waters a garden draws while they last, and a lost
 * tank shortens them.
 */
const MAX_RUN_CHANGE = 0.15;
/**
 * Three quieter days in a row are no empty weekend; half of the rise must be gone, so that it does
 * not come and go; and of a day that was heard for less than nine tenths the count is not known
 * (argued, not measured).
 */
const CLEAR_DAYS = 3;
const CLEAR_RATIO = 1.3;
const MIN_HEARD_FRACTION = 0.9;

export interface BusyWeeks {
  /** Starts of the middle day of these weeks. */
  cycles: number;
  normal: number;
}

/**
 * `firstLearned`: starts a day as first learnt, or as pinned. Undefined where these weeks are like
 * others, or too little of them was heard.
 */
export function busyWeeks(scene: Scene, firstLearned: number): BusyWeeks | undefined {
  const { card, days } = scene.well;
  if (card.uses.some((use) => use !== 'house') || !isAfterReset(scene, scene.atMs - BUSY_DAYS * DAY_MS))
    return undefined;
  const whole = days.filter((day) => isWholeDay(day, scene.pump.card.id));
  const now = whole.slice(-BUSY_DAYS);
  const before = whole.slice(-BUSY_DAYS - BEFORE_DAYS, -BUSY_DAYS);
  if (before.length < MIN_BEFORE_DAYS || !areConsecutive(now, scene.day?.date)) return undefined;
  const starts = startsOf(now).sort((a, b) => a - b);
  const normal = Math.max(
    firstLearned,
    median(startsOf(before))!,
    seasonStarts(scene.pump.habit, now[0]!.date),
  );
  const cycles = median(starts)!;
  if (cycles < MIN_MEDIAN_RATIO * normal || starts[0]! < MIN_DAY_RATIO * normal) return undefined;
  const longer =
    meanRunS(now) / median(before.filter(({ cycles }) => cycles! > 0).map((day) => meanRunS([day])))!;
  return Math.abs(longer - 1) <= MAX_RUN_CHANGE ? { cycles, normal } : undefined;
}

/**
 * Three days like others have ended it, or the weeks before have become as busy: then it is how
 * this well is used.
 */
export function isBusyOver(scene: Scene, normal: number): boolean {
  const whole = scene.well.days.filter((day) => isWholeDay(day, scene.pump.card.id));
  const last = median(startsOf(whole.slice(-CLEAR_DAYS))) ?? 0;
  const before = median(startsOf(whole.slice(-BUSY_DAYS - BEFORE_DAYS, -BUSY_DAYS))) ?? 0;
  return last < CLEAR_RATIO * normal || before >= MIN_MEDIAN_RATIO * normal;
}

function isWholeDay(day: DayEvent, pump: string): boolean {
  if (day.pump !== undefined && day.pump !== pump) return false;
  return (
    day.cycles !== undefined && day.ranS !== undefined && (day.heardS ?? 0) >= MIN_HEARD_FRACTION * DAY_S
  );
}

/** Day after day, up to the one that ended now. */
function areConsecutive(days: readonly DayEvent[], date: string | undefined): boolean {
  const last = days.at(-1);
  if (days.length < BUSY_DAYS || last === undefined || last.date !== date) return false;
  return Date.parse(last.date) - Date.parse(days[0]!.date) === (BUSY_DAYS - 1) * DAY_MS;
}

function startsOf(days: readonly DayEvent[]): number[] {
  return days.map(({ cycles }) => cycles!);
}

/** Mean run, s. */
function meanRunS(days: readonly DayEvent[]): number {
  let ranS = 0;
  let cycles = 0;
  for (const day of days) {
    ranS += day.ranS!;
    cycles += day.cycles!;
  }
  return ranS / cycles;
}
