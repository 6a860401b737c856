/**
 * How a drawn well becomes a labelled case. A recipe names a mechanism, the wells that it can
 * befall and how heavy it may be; what is right to say of it is argued from physics and the
 * contract's words beside each recipe. Nothing here comes from what the engine says.
 */
import type { AlarmKind, Cause } from '../../../../shared/text/en/alarms/kinds.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import type { CorpusCase, NodePlan } from '../../score/case.ts';
import type { Condition, Showing } from '../plan.ts';
import { dice, type Dice } from './draw.ts';
import { drawWell, type DrawnWell, type WellWish } from './draw-well.ts';

export interface Recipe {
  /** Kind of fault and mechanism: `slow-fill: worn wear rings`. */
  family: string;
  wish: WellWish;
  /** How heavy, the lightest first; what the number means is the recipe's. */
  sizes: readonly number[];
  /** From the onset to the end. */
  forDays: number;
  /** Starts in this month (1 to 12) and not in any. */
  month?: number;
  story: (well: DrawnWell, onset: Onset, size: number) => Story;
}

export interface Onset {
  ms: number;
  draw: Dice;
}

export interface Story {
  what: string;
  fault?: (tMs: number) => Partial<Condition>;
  alarms: readonly AlarmKind[];
  causes: readonly Cause[];
  /**
   * When it shows: an event that the plant waits for, or a time; the onset where neither stands.
   */
  showing?: Showing;
  knowableMs?: number;
  /** Told within this after it shows. */
  withinMs: number;
  node?: Partial<NodePlan>;
  card?: Record<string, unknown>;
  allowed?: readonly AlarmKind[];
  measure?: NonNullable<NonNullable<CorpusCase['fault']>['measure']>;
}

/** Two minutes to tell what a person should get up for (the scoreboard's number). */
export const AT_ONCE_MS = 2 * MINUTE_MS;
export const DAYS_3_MS = 3 * DAY_MS;
export const WEEK_MS = 7 * DAY_MS;

/** A well runs soundly for so long before anything goes wrong. */
const SOUND_DAYS = 14;
const FIRST_MS = Date.UTC(2025, 2, 1);

export function minutes(count: number): number {
  return count * MINUTE_MS;
}

export function hours(count: number): number {
  return count * HOUR_MS;
}

/** Some local midnight of a year; of a month where one is wanted. */
export function startMs(draw: Dice, utcOffsetH: number, month?: number): number {
  const dayMs =
    month === undefined
      ? FIRST_MS + Math.floor(draw.between(0, 340)) * DAY_MS
      : Date.UTC(2026, month - 1, 1 + Math.floor(draw.between(0, 12)));
  return dayMs - utcOffsetH * HOUR_MS;
}

/** Labels are not finer than a minute. */
function toMinute(ms: number): number {
  return Math.ceil(ms / MINUTE_MS) * MINUTE_MS;
}

export function caseOf(
  recipe: Recipe,
  sizeAt: number,
  { seed, half }: { seed: number; half: string },
): CorpusCase {
  const well = drawWell(seed, recipe.wish);
  const draw = dice(seed + 1_000_000);
  const fromMs = startMs(draw, well.plan.utcOffsetH, recipe.month);
  const days = SOUND_DAYS + 1 + recipe.forDays;
  const beganMs = toMinute(fromMs + SOUND_DAYS * DAY_MS + hours(draw.between(5, 22)));
  const size = recipe.sizes[sizeAt]!;
  const story = recipe.story(well, { ms: beganMs, draw }, size);
  const { what, alarms, causes, showing, withinMs, fault, allowed, measure } = story;
  // Where the plant never sees it show, it shows with the recording's end.
  const endMs = fromMs + days * DAY_MS;
  const shownMs = toMinute(showing ? endMs - withinMs : (story.knowableMs ?? beganMs));
  return {
    name: `${half}-${recipe.family.replaceAll(/[^a-z0-9]+/g, '-')}-${sizeAt + 1}-${seed}`,
    about: `${what} (second plant)`,
    is: 'fault',
    plan: { ...well.plan, ...(fault && { fault }), ...(showing && { showing }) },
    card: { ...well.card, ...story.card },
    node: { ...well.node, ...story.node },
    fromMs,
    days,
    ...(allowed && { allowed }),
    fault: {
      what,
      family: recipe.family,
      size: sizeAt + 1,
      alarms,
      causes,
      beganMs,
      knowableMs: shownMs,
      byMs: shownMs + withinMs,
      ...(measure && { measure }),
    },
  };
}

const UNCHANGED: Partial<Condition> = {};

/** From a moment on, for good. */
export function since(fromMs: number, condition: Partial<Condition>): (tMs: number) => Partial<Condition> {
  return (tMs) => (tMs >= fromMs ? condition : UNCHANGED);
}

/** Grows evenly from 0 to 1 over some days, and stays. */
export function growing(
  fromMs: number,
  days: number,
  condition: (part: number) => Partial<Condition>,
): (tMs: number) => Partial<Condition> {
  return (tMs) => (tMs < fromMs ? UNCHANGED : condition(Math.min(1, (tMs - fromMs) / (days * DAY_MS))));
}
