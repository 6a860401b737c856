/**
 * How a set-up becomes a case. `began`, `knowable` and `by` are argued where each case stands:
 * `knowable` is when an honest technician with these readings could first say it, `by` when a
 * household should have heard. A `now` alarm has two minutes.
 */
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase, Fault } from '../case.ts';
import type { Setup } from './setup.ts';
import { FROM_MS, minutes } from './times.ts';

type ConditionSchedule = (tMs: number) => Partial<Condition>;
export type Acts = NonNullable<CorpusCase['acts']>;

/** Two minutes to tell what a person should get up for (the scoreboard's number). */
export const NOW_DEADLINE_MS = minutes(2);

type CaseFields = Pick<CorpusCase, 'about' | 'days' | 'allowed' | 'acts'>;

interface FaultOptions extends CaseFields {
  setup: Setup;
  schedule?: ConditionSchedule;
  fault: Fault;
  is?: 'fault' | 'bad-input';
}

/** The next whole minute: labels are not finer than what they are argued from. */
function toMinute(ms: number): number {
  return Math.ceil(ms / minutes(1)) * minutes(1);
}

/** A faulty well; its name is that of its family, its size and the well. */
export function faultyCase(
  name: string,
  { setup, schedule, fault, is = 'fault', ...options }: FaultOptions,
): CorpusCase {
  return {
    name,
    is,
    ...options,
    fault: {
      ...fault,
      beganMs: toMinute(fault.beganMs),
      knowableMs: toMinute(fault.knowableMs),
      byMs: toMinute(fault.byMs),
    },
    plan: schedule ? { ...setup.plan, schedule } : setup.plan,
    card: setup.card,
    node: setup.node,
    fromMs: FROM_MS,
  };
}

interface HealthyOptions extends CaseFields {
  setup: Setup;
  fromMs: number;
  schedule?: ConditionSchedule;
}

export function healthyCase(name: string, { setup, schedule, ...options }: HealthyOptions): CorpusCase {
  return {
    name,
    is: 'healthy',
    ...options,
    plan: schedule ? { ...setup.plan, schedule } : setup.plan,
    card: setup.card,
    node: setup.node,
  };
}

/** One object for all quiet moments: the plant looks anew only where the story gives another. */
const UNCHANGED: Partial<Condition> = {};

/** From a moment on, for good. */
export function since(fromMs: number, condition: Partial<Condition>): ConditionSchedule {
  return (tMs) => (tMs >= fromMs ? condition : UNCHANGED);
}

/** Between two moments. */
export function between(fromMs: number, untilMs: number, condition: Partial<Condition>): ConditionSchedule {
  return (tMs) => (tMs >= fromMs && tMs < untilMs ? condition : UNCHANGED);
}

/** Grows evenly from 0 to 1 between two moments and stays; before, all is well. */
export function growing(
  fromMs: number,
  untilMs: number,
  condition: (fraction: number) => Partial<Condition>,
): ConditionSchedule {
  return (tMs) => (tMs < fromMs ? UNCHANGED : condition(Math.min(1, (tMs - fromMs) / (untilMs - fromMs))));
}

export function combined(...stories: readonly ConditionSchedule[]): ConditionSchedule {
  return (tMs) => Object.assign({}, ...stories.map((story) => story(tMs))) as Partial<Condition>;
}
