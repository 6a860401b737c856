/**
 * What is due on a well, and since when: from its card, from what people wrote down, and from acts.
 * Each check comes round by days or by a day of the year, a person's plan overrules the usual one,
 * and what happened (a flood, a repair, an alarm of the tank) can call it sooner. Every date says
 * why it is that date. What nobody knows the last time of has none, and what a rest of the well
 * holds up waits. Pure: today is an argument.
 */
import type { Caution } from '../../../shared/text/en/cautions.ts';
import { DUE_KINDS, DUE_WORDS, isDueKind, type DueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { Card } from '../../core/domain/card.ts';
import { lastCompletion, type CheckCompletion } from './check-completions.ts';
import type { ColdSeason } from './cold-season.ts';
import { alarmTriggers } from './due-by-alarm.ts';
import { cardTriggers } from './due-by-card.ts';
import { withDueDate } from './due-date.ts';
import { isCheckNeeded, defaultRecurrence, type Recurrence } from './due-rules.ts';
import { latestPlans, type CheckPlan } from './check-plans.ts';
import { downtimeTriggers, downtimeDates, type DowntimeDates } from './due-downtime.ts';
import { prechargeTarget, type PrechargeTarget } from '../readings/precharge-target.ts';
import { waterTestTriggers } from './due-water-test.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { texts } from './texts.ts';

/** An act as far as it matters here. */
export interface ActSummary {
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
  entries: readonly Entry[];
  acts: readonly ActSummary[];
  /** Median cut-in of the baseline, kPa gauge. */
  cutInKpa?: number;
  /** Names of the nodes that measure this well. */
  nodes: readonly string[];
  /** Active alarms, and since when. */
  activeAlarms: readonly { alarm: string; sinceMs: number }[];
  /** When the cold season begins here, where a sensor measured a year of it. */
  coldSeason?: ColdSeason;
  /** When the well was first heard of; absent where nothing tells. */
  firstSeenMs?: number;
  /**
   * How many wells there are, among which what nobody wrote down is spread; this one alone unless
   * given.
   */
  wellCount?: number;
  nowMs: number;
}

/**
 * `not-recorded`: nobody knows when it was done last. `on-hold`: the well stands still, and nobody
 * knows until when.
 */
export type DueState = 'overdue' | 'due' | 'later' | 'not-recorded' | 'on-hold' | 'off' | 'not-needed';

/** Something that asks for a check at once, or sooner than its round. */
export interface DueTrigger {
  date: string;
  reason: string;
  cautions?: readonly Caution[];
}

export interface DueCheck {
  check: string;
  /** Present for a check that people made themselves. */
  custom?: true;
  title: string;
  text?: string;
  recurrence?: Recurrence;
  last?: CheckCompletion;
  /** ISO date in the well's own time zone; absent where it has none. */
  dueDate?: string;
  /**
   * Of one that is not recorded: a day on which it could be caught up on, with all others of this
   * well.
   */
  proposedDate?: string;
  state: DueState;
  /** It waits until the well comes back. */
  onHold?: DowntimeDates;
  /** Why on that day, the most pressing first; or why it is not needed. */
  reasons: string[];
  cautions: readonly Caution[];
  target?: PrechargeTarget;
}

/** All checks of a well, the most pressing first; those that are off or not needed last. */
export function dueChecks(input: DueInput): DueCheck[] {
  const plans = latestPlans(input.entries);
  const downtime = downtimeDates(input.acts, input.nowMs, input.card.timeZone);
  const own = [...plans.keys()].filter((check) => !isDueKind(check));
  const all = [
    ...DUE_KINDS.map((kind) => builtInCheck(kind, { plan: plans.get(kind), downtime, input })),
    ...own.map((check) => customCheck(check, { plan: plans.get(check), downtime, input })),
  ];
  return all.flatMap((one) => one ?? []).toSorted((a, b) => sortKey(a).localeCompare(sortKey(b)));
}

function sortKey({ dueDate, proposedDate, title }: DueCheck): string {
  return `${dueDate ?? (proposedDate === undefined ? '9999' : '9998')} ${title}`;
}

interface CheckInput {
  plan: CheckPlan | undefined;
  downtime: DowntimeDates | undefined;
  input: DueInput;
}

function builtInCheck(kind: DueKind, { plan, downtime, input }: CheckInput): DueCheck {
  const { title, cautions } = DUE_WORDS[kind];
  const last = lastCompletion(kind, input);
  const base = { check: kind, title, cautions, ...(last && { last }), ...textOf(plan) };
  const target = kind === 'precharge' ? prechargeTarget(input.card, input.cutInKpa) : undefined;
  const needed = isCheckNeeded(kind, input);
  if (plan?.off) return { ...base, state: 'off', reasons: [texts().postponed] };
  const recurrence =
    plan?.recurrence ??
    measuredRecurrence(kind, input.coldSeason) ??
    defaultRecurrence(kind, input.card.timeZone);
  const triggers = [
    ...(kind === 'water-test' ? waterTestTriggers(input) : []),
    ...cardTriggers(kind, input),
    ...alarmTriggers(kind, input, last),
    ...downtimeTriggers(kind, downtime, { last, recurrence }),
  ];
  // Whoever plans a check on this well, or has its water tested, says that it is needed. A list for
  // one occasion is needed when that came.
  const happened =
    recurrence === undefined && triggers.some(({ date }) => last === undefined || date > last.date);
  const wanted = isPlanned(plan, last) || happened || (kind === 'water-test' && last !== undefined);
  if ('not' in needed && !wanted) return { ...base, state: 'not-needed', reasons: [needed.not] };
  return withDueDate(
    { ...base, ...(recurrence && { recurrence }), ...(target && { target }) },
    { plan, triggers, downtime, input },
  );
}

/** A list for one occasion is done with its day. */
function isPlanned(plan: CheckPlan | undefined, last: CheckCompletion | undefined): boolean {
  if (plan === undefined) return false;
  return plan.recurrence !== undefined || !last?.completed || last.atMs < plan.createdMs;
}

/** Frost by what was measured here goes before the calendar. */
function measuredRecurrence(kind: DueKind, cold: ColdSeason | undefined): Recurrence | undefined {
  if (kind !== 'freeze' || cold?.is !== 'seasonal') return undefined;
  return {
    is: 'yearly',
    day: cold.prepareByDay,
    basis: texts().firstCold(cold.firstColdDate),
  };
}

function customCheck(check: string, { plan, downtime, input }: CheckInput): DueCheck | undefined {
  if (!plan?.title || plan.off) return undefined;
  const last = lastCompletion(check, input);
  const base = {
    check,
    custom: true as const,
    title: plan.title,
    cautions: [],
    ...(last && { last }),
    ...textOf(plan),
    ...(plan.recurrence && { recurrence: plan.recurrence }),
  };
  return withDueDate(base, { plan, triggers: [], downtime, input });
}

function textOf(plan: CheckPlan | undefined): { text?: string } {
  return plan?.text === undefined ? {} : { text: plan.text };
}
