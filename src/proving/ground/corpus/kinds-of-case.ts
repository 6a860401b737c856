/**
 * How a set-up becomes a case. `began`, `knowable` and `by` are argued where each case stands: `knowable` is when an honest
 * technician with these readings could first say it, `by` when a household should have heard. A `now` alarm has two minutes.
 */
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase, Fault } from '../case.ts';
import type { Setup } from './setup.ts';
import { FROM_MS, minutes } from './times.ts';

type Story = (tMs: number) => Partial<Condition>;
export type Acts = NonNullable<CorpusCase['acts']>;

/** Two minutes to tell what a person should get up for (the scoreboard's number). */
export const TELL_NOW_MS = minutes(2);

type Told = Pick<CorpusCase, 'about' | 'days' | 'allowed' | 'acts'>;

interface FaultWish extends Told {
  setup: Setup;
  story?: Story;
  fault: Fault;
  is?: 'fault' | 'bad-input';
}

/** The next whole minute: labels are not finer than what they are argued from. */
function toMinute(ms: number): number {
  return Math.ceil(ms / minutes(1)) * minutes(1);
}

/** A faulty well; its name is that of its family, its size and the well. */
export function faulty(name: string, { setup, story, fault, is = 'fault', ...wish }: FaultWish): CorpusCase {
  return {
    name,
    is,
    ...wish,
    fault: {
      ...fault,
      beganMs: toMinute(fault.beganMs),
      knowableMs: toMinute(fault.knowableMs),
      byMs: toMinute(fault.byMs),
    },
    plan: story ? { ...setup.plan, story } : setup.plan,
    card: setup.card,
    node: setup.node,
    fromMs: FROM_MS,
  };
}

interface HealthyWish extends Told {
  setup: Setup;
  fromMs: number;
  story?: Story;
}

export function healthy(name: string, { setup, story, ...wish }: HealthyWish): CorpusCase {
  return {
    name,
    is: 'healthy',
    ...wish,
    plan: story ? { ...setup.plan, story } : setup.plan,
    card: setup.card,
    node: setup.node,
  };
}

/** One object for all quiet moments: the plant looks anew only where the story gives another. */
const NOTHING: Partial<Condition> = {};

/** From a moment on, for good. */
export function since(fromMs: number, condition: Partial<Condition>): Story {
  return (tMs) => (tMs >= fromMs ? condition : NOTHING);
}

/** Between two moments. */
export function between(fromMs: number, untilMs: number, condition: Partial<Condition>): Story {
  return (tMs) => (tMs >= fromMs && tMs < untilMs ? condition : NOTHING);
}

/** Grows evenly from 0 to 1 between two moments and stays; before, all is well. */
export function growing(
  fromMs: number,
  untilMs: number,
  condition: (share: number) => Partial<Condition>,
): Story {
  return (tMs) => (tMs < fromMs ? NOTHING : condition(Math.min(1, (tMs - fromMs) / (untilMs - fromMs))));
}

export function together(...stories: readonly Story[]): Story {
  return (tMs) => Object.assign({}, ...stories.map((story) => story(tMs))) as Partial<Condition>;
}
