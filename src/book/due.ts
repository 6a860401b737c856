/**
 * What is due on a well, and since when: from its card, from what people wrote down, and from acts. Each check comes round by days
 * or by a day of the year, a person's plan overrules the usual one, and what happened (a flood, a repair, an alarm of the tank) can call it
 * sooner. Every date says why it is that date. What nobody knows the last time of has none, and what a rest of the well holds up
 * waits. Pure: today is an argument.
 */
import type { Caution } from '../../shared/words/cautions.ts';
import { DUE_KINDS, DUE_WORDS, isDueKind, type DueKind } from '../../shared/words/due-words.ts';
import type { Card } from '../card/card.ts';
import { doneOf, type Done } from './check-done.ts';
import type { ColdSeason } from './cold-season.ts';
import { alarmCalls } from './due-alarms.ts';
import { dated } from './due-date.ts';
import { neededHere, usualRound, type Round } from './due-rules.ts';
import { plansOf, type Plan } from './due-plans.ts';
import { restCalls, restDays, type RestDays } from './due-rest.ts';
import { prechargeTarget, type Target } from './precharge-target.ts';
import { waterCalls } from './water-due.ts';
import type { KeptEntry } from './entry.ts';

/** An act as far as it matters here. */
export interface DoneAct {
  kind: string;
  atMs: number;
  well?: string;
  node?: string;
  /** Of a closed visit: pump, motor, tank or switch was changed. */
  newBaseline?: boolean;
  /** Of a lay-up: its written end. */
  untilMs?: number;
}

export interface DueInput {
  card: Card;
  /** Entries that count (currentEntries). */
  entries: readonly KeptEntry[];
  acts: readonly DoneAct[];
  /** Median cut-in of the baseline, kPa gauge. */
  cutInKpa?: number;
  /** Names of the nodes that measure this well. */
  nodes: readonly string[];
  /** Alarms that stand, and since when. */
  standing: readonly { alarm: string; sinceMs: number }[];
  /** When the cold season begins here, where a sensor measured a year of it. */
  cold?: ColdSeason;
  /** When the well was first heard of; absent where nothing tells. */
  firstMs?: number;
  /** How many wells there are, among which what nobody wrote down is spread; this one alone unless given. */
  wells?: number;
  nowMs: number;
}

/** `unwritten`: nobody knows when it was done last. `waits`: the well stands still, and nobody knows until when. */
export type DueState = 'overdue' | 'due' | 'later' | 'unwritten' | 'waits' | 'off' | 'not-needed';

/** Something that asks for a check at once, or sooner than its round. */
export interface Call {
  on: string;
  because: string;
  cautions?: readonly Caution[];
}

export interface DueCheck {
  check: string;
  /** Present for a check that people made themselves. */
  own?: true;
  title: string;
  text?: string;
  round?: Round;
  last?: Done;
  /** ISO date in the well's own time zone; absent where it has none. */
  on?: string;
  /** Of one that is unwritten: a day on which it could be caught up on, with all others of this well. */
  proposedOn?: string;
  state: DueState;
  /** It waits until the well comes back. */
  atRest?: RestDays;
  /** Why on that day, the most pressing first; or why it is not needed. */
  because: string[];
  cautions: readonly Caution[];
  target?: Target;
}

/** All checks of a well, the most pressing first; those that are off or not needed last. */
export function dueChecks(input: DueInput): DueCheck[] {
  const plans = plansOf(input.entries);
  const rest = restDays(input.acts, input.nowMs, input.card.timeZone);
  const own = [...plans.keys()].filter((check) => !isDueKind(check));
  const all = [
    ...DUE_KINDS.map((kind) => usual(kind, { plan: plans.get(kind), rest, input })),
    ...own.map((check) => ownCheck(check, { plan: plans.get(check), rest, input })),
  ];
  return all.flatMap((one) => one ?? []).toSorted((a, b) => order(a).localeCompare(order(b)));
}

function order({ on, proposedOn, title }: DueCheck): string {
  return `${on ?? (proposedOn === undefined ? '9999' : '9998')} ${title}`;
}

interface Of {
  plan: Plan | undefined;
  rest: RestDays | undefined;
  input: DueInput;
}

function usual(kind: DueKind, { plan, rest, input }: Of): DueCheck {
  const { title, cautions } = DUE_WORDS[kind];
  const last = doneOf(kind, input);
  const base = { check: kind, title, cautions, ...(last && { last }), ...textOf(plan) };
  const target = kind === 'precharge' ? prechargeTarget(input.card, input.cutInKpa) : undefined;
  const needed = neededHere(kind, input);
  if (plan?.off) return { ...base, state: 'off', because: ['Put off by a person.'] };
  // Whoever plans a check on this well, or has its water tested, says that it is needed.
  const wanted = plan !== undefined || (kind === 'water-test' && last !== undefined);
  if ('not' in needed && !wanted) return { ...base, state: 'not-needed', because: [needed.not] };
  const round = plan?.round ?? measuredRound(kind, input.cold) ?? usualRound(kind, input.card.timeZone);
  const calls = [
    ...(kind === 'water-test' ? waterCalls(input) : []),
    ...alarmCalls(kind, input, last),
    ...restCalls(kind, rest, { last, round }),
  ];
  return dated({ ...base, round, ...(target && { target }) }, { plan, calls, rest, input });
}

/** Frost by what was measured here goes before the calendar. */
function measuredRound(kind: DueKind, cold: ColdSeason | undefined): Round | undefined {
  if (kind !== 'freeze' || cold?.is !== 'from') return undefined;
  return { is: 'on', day: cold.readyBy, since: `The sensor here first measured cold on ${cold.coldOn}.` };
}

function ownCheck(check: string, { plan, rest, input }: Of): DueCheck | undefined {
  if (!plan?.title || plan.off) return undefined;
  const last = doneOf(check, input);
  const base = {
    check,
    own: true as const,
    title: plan.title,
    cautions: [],
    ...(last && { last }),
    ...textOf(plan),
    ...(plan.round && { round: plan.round }),
  };
  return dated(base, { plan, calls: [], rest, input });
}

function textOf(plan: Plan | undefined): { text?: string } {
  return plan?.text === undefined ? {} : { text: plan.text };
}
