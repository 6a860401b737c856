/**
 * What is due on a well, and since when: from its card, from what people wrote down, and from acts. Each check comes round by days
 * or by a day of the year, a person's plan overrules the usual one, and what happened (a flood, a repair, an alarm of the tank) can call it
 * sooner. Every date says why it is that date. Pure: today is an argument.
 */
import { localDate } from '../../shared/api/time-words.ts';
import type { Caution } from '../../shared/words/cautions.ts';
import { DUE_KINDS, DUE_WORDS, isDueKind, type DueKind } from '../../shared/words/due-words.ts';
import type { Card } from '../card/card.ts';
import { doneOf, type Done } from './check-done.ts';
import type { ColdSeason } from './cold-season.ts';
import { addDays, nextOn } from './days.ts';
import { neededHere, usualRound, type Round } from './due-rules.ts';
import { plansOf, type Plan } from './due-plans.ts';
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
  nowMs: number;
}

export type DueState = 'overdue' | 'due' | 'later' | 'off' | 'not-needed';

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
  /** ISO date in the well's own time zone; absent where it is off or not needed. */
  on?: string;
  state: DueState;
  /** Why on that day, the most pressing first; or why it is not needed. */
  because: string[];
  cautions: readonly Caution[];
  target?: Target;
}

/** What is due within this is `due`: time to buy a part, fill a bottle, arrange a day. */
export const SOON_DAYS = 31;
/** What was never written down is due a month after the well was first heard of: one visit catches up on all. */
const CATCH_UP_DAYS = 30;
/** What was found not right and never put right (common practice, no source). */
const NOT_RIGHT_DAYS = 30;
/** A check done within half a year of a day of the year was done for that day. */
const NEAR_DAYS = 183;

/** All checks of a well, the most pressing first; those that are off or not needed last. */
export function dueChecks(input: DueInput): DueCheck[] {
  const plans = plansOf(input.entries);
  const own = [...plans.keys()].filter((check) => !isDueKind(check));
  const all = [
    ...DUE_KINDS.map((kind) => usual(kind, plans.get(kind), input)),
    ...own.map((check) => ownCheck(check, plans.get(check), input)),
  ];
  return all.flatMap((one) => one ?? []).toSorted((a, b) => order(a).localeCompare(order(b)));
}

function order({ on, title }: DueCheck): string {
  return `${on ?? '9999'} ${title}`;
}

function usual(kind: DueKind, plan: Plan | undefined, input: DueInput): DueCheck {
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
  const calls = [...(kind === 'water-test' ? waterCalls(input) : []), ...alarmCalls(kind, input, last)];
  return dated({ ...base, round, ...(target && { target }) }, { plan, calls, input });
}

/** Frost by what was measured here goes before the calendar. */
function measuredRound(kind: DueKind, cold: ColdSeason | undefined): Round | undefined {
  if (kind !== 'freeze' || cold?.is !== 'from') return undefined;
  return { is: 'on', day: cold.readyBy, since: `The sensor here first measured cold on ${cold.coldOn}.` };
}

function ownCheck(check: string, plan: Plan | undefined, input: DueInput): DueCheck | undefined {
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
  return dated(base, { plan, calls: [], input });
}

function textOf(plan: Plan | undefined): { text?: string } {
  return plan?.text === undefined ? {} : { text: plan.text };
}

interface Dating {
  plan: Plan | undefined;
  calls: readonly Call[];
  input: DueInput;
}

/** Puts the day on a check: by its round, by a person's own date, or sooner because of what happened. */
function dated(base: Omit<DueCheck, 'on' | 'state' | 'because'>, { plan, calls, input }: Dating): DueCheck {
  const today = localDate(input.nowMs, input.card.timeZone);
  const { round, last } = base;
  const byRound = planned(plan, last) ?? (round && roundDay(round, last, input));
  // What happened before the last time was answered by it; before the well was known here, by the catching up.
  const since = last?.counts
    ? last.on
    : addDays(localDate(input.firstMs ?? input.nowMs, input.card.timeZone), -1);
  const all = [
    ...calls.filter(({ on }) => on > since),
    ...notRight(last),
    ...(byRound ? [byRound] : []),
  ].toSorted((a, b) => a.on.localeCompare(b.on));
  const on = all[0]?.on;
  if (on === undefined)
    return { ...base, state: 'later', because: ['Done, and it does not come round again.'] };
  const told = all.filter((call) => call.on <= on || call.on <= today);
  const cautions = [...new Set([...base.cautions, ...told.flatMap((call) => call.cautions ?? [])])];
  const state = on < today ? 'overdue' : on <= addDays(today, SOON_DAYS) ? 'due' : 'later';
  return { ...base, cautions, on, state, because: told.map(({ because }) => because) };
}

function notRight(last: Done | undefined): Call[] {
  if (last?.outcome !== 'not-right') return [];
  const because = `It was not right on ${last.on}, and nobody wrote that it was put right.`;
  return [{ on: addDays(last.on, NOT_RIGHT_DAYS), because }];
}

/** The next time that a person set, until it was done on or after the day they set it. */
function planned(plan: Plan | undefined, last: Done | undefined): Call | undefined {
  if (plan?.next === undefined) return undefined;
  const done = last !== undefined && last.counts && (last.atMs > plan.madeMs || last.on >= plan.next);
  return done ? undefined : { on: plan.next, because: 'The day was set by a person.' };
}

function roundDay(round: Round, last: Done | undefined, input: DueInput): Call | undefined {
  const { timeZone } = input.card;
  if (last?.counts) {
    if (round.is === 'days')
      return {
        on: addDays(last.on, round.days),
        because: `${everyWords(round.days)}, and last done on ${last.on}.`,
      };
    if (round.is === 'on')
      return {
        on: nextOn(round.day, addDays(last.on, NEAR_DAYS)),
        because: withSince(`Each year, and last done on ${last.on}.`, round),
      };
    return undefined;
  }
  const first = localDate(input.firstMs ?? input.nowMs, timeZone);
  const never = 'Nobody wrote down that it was ever done.';
  if (round.is === 'on' && !round.catchUp)
    return { on: nextOn(round.day, first), because: withSince(never, round) };
  return { on: addDays(first, input.firstMs === undefined ? 0 : CATCH_UP_DAYS), because: never };
}

function withSince(because: string, { since }: { since?: string }): string {
  return since === undefined ? because : `${since} ${because}`;
}

function everyWords(days: number): string {
  if (days === 365) return 'Each year';
  return days === 1 ? 'Each day' : `Every ${days} days`;
}

const ALARM_CALLS: Partial<Record<DueKind, readonly [alarm: string, because: string][]>> = {
  precharge: [
    ['tank-air-lost', 'An alarm says that the tank has lost air.'],
    ['tank-overcharged', 'An alarm says that the tank holds too much air.'],
  ],
  'relief-valve': [['over-pressure', 'An alarm says that the pressure is too high.']],
  'node-calibration': [['sensor-fault', 'An alarm says that a sensor and the card cannot both be right.']],
  freeze: [['freeze-risk', 'An alarm says that frost is near.']],
};

/** An alarm that stands asks for the check that looks into it, from the day on which it began. */
function alarmCalls(kind: DueKind, { standing, card }: DueInput, last: Done | undefined): Call[] {
  return (ALARM_CALLS[kind] ?? []).flatMap(([alarm, because]) => {
    const found = standing.find((one) => one.alarm === alarm);
    if (!found || (last?.counts && last.atMs >= found.sinceMs)) return [];
    return [{ on: localDate(found.sinceMs, card.timeZone), because }];
  });
}
