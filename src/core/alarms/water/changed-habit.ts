/**
 * A habit that is another from one day on: twice the starts on each of some days, or hardly any.
 * Guests of a long weekend, and a house that stands empty for weeks, are what houses do; a herd is
 * there or it is not. Weather makes less of it than twice the highest day, but for watered fields,
 * which are not asked.
 */
import type { DayEvent } from '../../../../shared/api/events.ts';
import { drawsForHours } from '../../domain/uses.ts';
import type { Scene } from '../scene.ts';

/**
 * Longer than guests of five days stay; stock does not come for a weekend. Argued, not measured.
 */
const HOUSE_DAYS = 6;
const STOCK_DAYS = 4;
/** And none of the days before was like these. */
const BEFORE_DAYS = 14;
const MIN_BEFORE_DAYS = 7;
/** A house that fills up for weeks has twice its starts: that is ./busy-weeks.ts. */
const HOUSE_RATIO = 2.5;
const STOCK_RATIO = 2;
const OVER_HIGHEST = 1.15;
const EMPTIED_RATIO = 0.35;
const UNDER_LOWEST = 0.8;
/** Runs are as long as they were, about: a garden's are longer, a lost tank's shorter. */
const MAX_LONGER = 1.3;
const MIN_LONGER = 0.7;

export interface ChangedHabit {
  direction: 'doubled' | 'emptied';
  days: number;
}

/** `normal`: starts of such a day. The day that has just ended is among the scene's days. */
export function changedHabit(scene: Scene, normal: number): ChangedHabit | undefined {
  const { uses } = scene.well.card;
  if (drawsForHours(uses) || normal <= 0) return undefined;
  const [days, ratio] = uses.includes('stock') ? [STOCK_DAYS, STOCK_RATIO] : [HOUSE_DAYS, HOUSE_RATIO];
  const own = scene.well.days.filter(({ pump }) => pump === undefined || pump === scene.pump.card.id);
  const now = own.slice(-days);
  const before = own.slice(-days - BEFORE_DAYS, -days).map((day) => day.cycles ?? 0);
  if (now.length < days || before.length < MIN_BEFORE_DAYS) return undefined;
  const leastNow = Math.min(...now.map(({ cycles = 0 }) => cycles));
  const mostNow = Math.max(...now.map(({ cycles = Infinity }) => cycles));
  const highest = Math.max(...before);
  const longer = meanRunS(now) / meanRunS(own.slice(-days - BEFORE_DAYS, -days));
  if (
    leastNow >= ratio * normal &&
    leastNow >= OVER_HIGHEST * highest &&
    longer <= MAX_LONGER &&
    longer >= MIN_LONGER
  )
    return { direction: 'doubled', days };
  if (!uses.includes('stock')) return undefined;
  return mostNow <= EMPTIED_RATIO * normal && mostNow <= UNDER_LOWEST * Math.min(...before)
    ? { direction: 'emptied', days }
    : undefined;
}

function meanRunS(days: readonly DayEvent[]): number {
  let ranS = 0;
  let starts = 0;
  for (const day of days) {
    ranS += day.ranS ?? 0;
    starts += day.cycles ?? 0;
  }
  return ranS / starts;
}
