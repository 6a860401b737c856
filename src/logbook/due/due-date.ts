/**
 * Puts the day on a check: by its round, by a person's own date, or sooner because of what
 * happened; later where the well stands still. What was never written down has no day: nobody knows
 * whether it is overdue. It gets a proposal and is told apart.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { CheckCompletion } from './check-completions.ts';
import { addDays, nextYearly } from './dates.ts';
import type { DueTrigger, DueCheck, DueInput } from './due.ts';
import type { CheckPlan } from './check-plans.ts';
import { shiftForDowntime, downtimeWords, type ShiftedTrigger, type DowntimeDates } from './due-downtime.ts';
import type { Recurrence } from './due-rules.ts';
import { proposedDate } from './proposed-date.ts';
import { texts } from './texts.ts';

/** What is due within this is `due`: time to buy a part, fill a bottle, arrange a day. */
export const DUE_SOON_DAYS = 31;
/** What was found not right and never put right (common practice, no source). */
const RECHECK_DAYS = 30;
/** A check done within half a year of a day of the year was done for that day. */
const SAME_SEASON_DAYS = 183;
/**
 * From the day on which a well is made ready for frost to the last frosts (common practice, no
 * source).
 */
const SEASON_DAYS = 150;

export interface DueDateInput {
  plan: CheckPlan | undefined;
  triggers: readonly DueTrigger[];
  downtime: DowntimeDates | undefined;
  input: DueInput;
}

type UndatedCheck = Omit<DueCheck, 'dueDate' | 'state' | 'reasons'>;

export function withDueDate(base: UndatedCheck, { plan, triggers, downtime, input }: DueDateInput): DueCheck {
  const { timeZone } = input.card;
  const { recurrence, last } = base;
  const byPlan = plannedTrigger(plan, last);
  const byRound = byPlan ? undefined : recurrenceTrigger({ recurrence, last, plan }, input);
  // What happened before the last time was answered by it; before the well was known here, by the
  // catching up.
  const since = last?.completed
    ? last.date
    : addDays(localDate(input.firstSeenMs ?? input.nowMs, timeZone), -1);
  const shifted = [
    ...triggers.filter(({ date }) => date > since),
    ...recheckTrigger(last),
    ...(byRound ? [byRound] : []),
  ].map((trigger) => shiftForDowntime(base.check, trigger, downtime));
  const all = [...shifted, ...(byPlan ? [plannedWithDowntime(base.check, byPlan, { plan, downtime })] : [])];
  if (all.length > 0) return withDate(base, { triggers: all, downtime, input });
  return last?.completed ? completedOnce(base) : notRecorded(base, { downtime, input });
}

/** Whoever sets a day while the well stands still means that day. */
function plannedWithDowntime(
  check: string,
  trigger: DueTrigger,
  { plan, downtime }: Pick<DueDateInput, 'plan' | 'downtime'>,
): ShiftedTrigger {
  const meant = plan && downtime && !downtime.ended && plan.createdMs >= downtime.sinceMs;
  return meant ? { trigger } : shiftForDowntime(check, trigger, downtime);
}

function completedOnce(base: UndatedCheck): DueCheck {
  return { ...base, state: 'later', reasons: [texts().doneForGood] };
}

interface DatedInput {
  triggers: readonly ShiftedTrigger[];
  downtime: DowntimeDates | undefined;
  input: DueInput;
}

function withDate(base: UndatedCheck, { triggers, downtime, input }: DatedInput): DueCheck {
  const today = localDate(input.nowMs, input.card.timeZone);
  const calls = triggers
    .flatMap((one) => ('trigger' in one ? [one] : []))
    .toSorted((a, b) => a.trigger.date.localeCompare(b.trigger.date));
  const dueDate = calls[0]?.trigger.date;
  if (dueDate === undefined) return onHold(base, triggers, downtime);
  const inForce = calls.filter(({ trigger }) => trigger.date <= dueDate || trigger.date <= today);
  const cautions = [
    ...new Set([...base.cautions, ...inForce.flatMap(({ trigger }) => trigger.cautions ?? [])]),
  ];
  const state = dueDate < today ? 'overdue' : dueDate <= addDays(today, DUE_SOON_DAYS) ? 'due' : 'later';
  const byDowntime = downtime && inForce.some(({ heldBy }) => heldBy !== undefined);
  return {
    ...base,
    cautions,
    dueDate,
    state,
    reasons: [
      ...(byDowntime ? [downtimeWords(downtime)] : []),
      ...inForce.map(({ trigger }) => trigger.reason),
    ],
    ...(byDowntime && !downtime.ended && { onHold: downtime }),
  };
}

/** Nobody knows when the well comes back. */
function onHold(
  base: UndatedCheck,
  all: readonly ShiftedTrigger[],
  downtime: DowntimeDates | undefined,
): DueCheck {
  const calls = all.flatMap((one) => ('onHold' in one ? [one.onHold] : []));
  return {
    ...base,
    cautions: [...new Set([...base.cautions, ...calls.flatMap(({ cautions }) => cautions ?? [])])],
    state: 'on-hold',
    reasons: [...(downtime ? [downtimeWords(downtime)] : []), ...calls.map(({ reason }) => reason)],
    ...(downtime && { onHold: downtime }),
  };
}

function notRecorded(
  base: UndatedCheck,
  { downtime, input }: Pick<DueDateInput, 'downtime' | 'input'>,
): DueCheck {
  const { timeZone, well } = input.card;
  const today = localDate(input.nowMs, timeZone);
  const proposed = proposedDate({
    well,
    today,
    wellCount: input.wellCount ?? 1,
    ...(input.firstSeenMs !== undefined && { firstDate: localDate(input.firstSeenMs, timeZone) }),
  });
  const at = shiftForDowntime(base.check, { date: proposed, reason: texts().neverRecorded }, downtime);
  if ('onHold' in at) return onHold(base, [at], downtime);
  const held = downtime && at.heldBy === 'on-hold';
  return {
    ...base,
    state: 'not-recorded',
    proposedDate: at.trigger.date,
    reasons: [...(held ? [downtimeWords(downtime)] : []), texts().neverRecorded],
    ...(held && { onHold: downtime }),
  };
}

function recheckTrigger(last: CheckCompletion | undefined): DueTrigger[] {
  if (last?.outcome !== 'not-right') return [];
  const reason = texts().notCorrected(last.date);
  return [{ date: addDays(last.date, RECHECK_DAYS), reason }];
}

/** The next time that a person set, until it was done on or after the day they set it. */
function plannedTrigger(
  plan: CheckPlan | undefined,
  last: CheckCompletion | undefined,
): DueTrigger | undefined {
  if (plan?.nextDate === undefined) return undefined;
  const done =
    last !== undefined && last.completed && (last.atMs > plan.createdMs || last.date >= plan.nextDate);
  return done ? undefined : { date: plan.nextDate, reason: texts().setByPerson };
}

interface RecurrenceInput {
  recurrence: Recurrence | undefined;
  last: CheckCompletion | undefined;
  plan: CheckPlan | undefined;
}

/**
 * Without a last time a round begins on the day somebody set it, and a day of the year on the next
 * such day.
 */
function recurrenceTrigger(
  { recurrence, last, plan }: RecurrenceInput,
  input: DueInput,
): DueTrigger | undefined {
  if (!recurrence) return undefined;
  const { timeZone } = input.card;
  if (last?.completed) return nextRecurrence(recurrence, last.date);
  const setOn = plan?.recurrence && localDate(plan.createdMs, timeZone);
  if (recurrence.is === 'days')
    return setOn === undefined
      ? undefined
      : {
          date: addDays(setOn, recurrence.days),
          reason: texts().everyFromSet(everyWords(recurrence.days), setOn, texts().neverRecorded),
        };
  const today = localDate(input.nowMs, timeZone);
  const first = setOn ?? localDate(input.firstSeenMs ?? input.nowMs, timeZone);
  if (setOn === undefined && (recurrence.dueIfNeverDone || missedBeforeStart(recurrence.day, first, today)))
    return undefined;
  // Of the years before this one nobody knows anything.
  const thisYear = addDays(today, 1 - SAME_SEASON_DAYS);
  return {
    date: nextYearly(recurrence.day, first > thisYear ? first : thisYear),
    reason: withBasis(texts().neverRecorded, recurrence),
  };
}

/**
 * A well that came to be known here after its day is not left until the next year, while the season
 * for it lasts: it catches up.
 */
function missedBeforeStart(day: string, first: string, today: string): boolean {
  const season = nextYearly(day, addDays(first, -SEASON_DAYS));
  return season < first && today <= addDays(season, SEASON_DAYS);
}

function nextRecurrence(recurrence: Recurrence, lastDate: string): DueTrigger {
  return recurrence.is === 'days'
    ? {
        date: addDays(lastDate, recurrence.days),
        reason: texts().everyAndLast(everyWords(recurrence.days), lastDate),
      }
    : {
        date: nextYearly(recurrence.day, addDays(lastDate, SAME_SEASON_DAYS)),
        reason: withBasis(texts().yearlyAndLast(lastDate), recurrence),
      };
}

function withBasis(reason: string, { basis }: { basis?: string }): string {
  return basis === undefined ? reason : `${basis} ${reason}`;
}

function everyWords(days: number): string {
  if (days === 365) return texts().yearly;
  return days === 1 ? texts().daily : texts().everyDays(days);
}
