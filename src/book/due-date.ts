/**
 * Puts the day on a check: by its round, by a person's own date, or sooner because of what happened; later where the well stands still.
 * What was never written down has no day: nobody knows whether it is overdue. It gets a proposal and is told apart.
 */
import { localDate } from '../../shared/api/time-words.ts';
import type { Done } from './check-done.ts';
import { addDays, nextOn } from './days.ts';
import type { Call, DueCheck, DueInput } from './due.ts';
import type { Plan } from './due-plans.ts';
import { moved, restWords, type Moved, type RestDays } from './due-rest.ts';
import type { Round } from './due-rules.ts';
import { proposedDay } from './proposed-day.ts';

/** What is due within this is `due`: time to buy a part, fill a bottle, arrange a day. */
export const SOON_DAYS = 31;
/** What was found not right and never put right (common practice, no source). */
const NOT_RIGHT_DAYS = 30;
/** A check done within half a year of a day of the year was done for that day. */
const NEAR_DAYS = 183;
/** From the day on which a well is made ready for frost to the last frosts (common practice, no source). */
const SEASON_DAYS = 150;
const NEVER = 'Nobody wrote down that it was ever done.';

export interface Dating {
  plan: Plan | undefined;
  calls: readonly Call[];
  rest: RestDays | undefined;
  input: DueInput;
}

type Undated = Omit<DueCheck, 'on' | 'state' | 'because'>;

export function dated(base: Undated, { plan, calls, rest, input }: Dating): DueCheck {
  const { timeZone } = input.card;
  const { round, last } = base;
  const byPlan = planned(plan, last);
  const byRound = byPlan ? undefined : roundDay({ round, last, plan }, input);
  // What happened before the last time was answered by it; before the well was known here, by the catching up.
  const since = last?.counts ? last.on : addDays(localDate(input.firstMs ?? input.nowMs, timeZone), -1);
  const asked = [
    ...calls.filter(({ on }) => on > since),
    ...notRight(last),
    ...(byRound ? [byRound] : []),
  ].map((call) => moved(base.check, call, rest));
  const all = [...asked, ...(byPlan ? [ownDay(base.check, byPlan, { plan, rest })] : [])];
  if (all.length > 0) return onDay(base, { all, rest, input });
  return last?.counts ? doneForGood(base) : unwritten(base, { rest, input });
}

/** Whoever sets a day while the well stands still means that day. */
function ownDay(check: string, call: Call, { plan, rest }: Pick<Dating, 'plan' | 'rest'>): Moved {
  const meant = plan && rest && !rest.over && plan.madeMs >= rest.sinceMs;
  return meant ? { call } : moved(check, call, rest);
}

function doneForGood(base: Undated): DueCheck {
  return { ...base, state: 'later', because: ['Done, and it does not come round again.'] };
}

interface OnDay {
  all: readonly Moved[];
  rest: RestDays | undefined;
  input: DueInput;
}

function onDay(base: Undated, { all, rest, input }: OnDay): DueCheck {
  const today = localDate(input.nowMs, input.card.timeZone);
  const calls = all
    .flatMap((one) => ('call' in one ? [one] : []))
    .toSorted((a, b) => a.call.on.localeCompare(b.call.on));
  const on = calls[0]?.call.on;
  if (on === undefined) return waiting(base, all, rest);
  const told = calls.filter(({ call }) => call.on <= on || call.on <= today);
  const cautions = [...new Set([...base.cautions, ...told.flatMap(({ call }) => call.cautions ?? [])])];
  const state = on < today ? 'overdue' : on <= addDays(today, SOON_DAYS) ? 'due' : 'later';
  const byRest = rest && told.some(({ by }) => by !== undefined);
  return {
    ...base,
    cautions,
    on,
    state,
    because: [...(byRest ? [restWords(rest)] : []), ...told.map(({ call }) => call.because)],
    ...(byRest && !rest.over && { atRest: rest }),
  };
}

/** Nobody knows when the well comes back. */
function waiting(base: Undated, all: readonly Moved[], rest: RestDays | undefined): DueCheck {
  const calls = all.flatMap((one) => ('waits' in one ? [one.waits] : []));
  return {
    ...base,
    cautions: [...new Set([...base.cautions, ...calls.flatMap(({ cautions }) => cautions ?? [])])],
    state: 'waits',
    because: [...(rest ? [restWords(rest)] : []), ...calls.map(({ because }) => because)],
    ...(rest && { atRest: rest }),
  };
}

function unwritten(base: Undated, { rest, input }: Pick<Dating, 'rest' | 'input'>): DueCheck {
  const { timeZone, well } = input.card;
  const today = localDate(input.nowMs, timeZone);
  const proposed = proposedDay({
    well,
    today,
    wells: input.wells ?? 1,
    ...(input.firstMs !== undefined && { firstOn: localDate(input.firstMs, timeZone) }),
  });
  const at = moved(base.check, { on: proposed, because: NEVER }, rest);
  if ('waits' in at) return waiting(base, [at], rest);
  const held = rest && at.by === 'waits';
  return {
    ...base,
    state: 'unwritten',
    proposedOn: at.call.on,
    because: [...(held ? [restWords(rest)] : []), NEVER],
    ...(held && { atRest: rest }),
  };
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

interface Rounds {
  round: Round | undefined;
  last: Done | undefined;
  plan: Plan | undefined;
}

/** Without a last time a round begins on the day somebody set it, and a day of the year on the next such day. */
function roundDay({ round, last, plan }: Rounds, input: DueInput): Call | undefined {
  if (!round) return undefined;
  const { timeZone } = input.card;
  if (last?.counts) return roundAfter(round, last.on);
  const setOn = plan?.round && localDate(plan.madeMs, timeZone);
  if (round.is === 'days')
    return setOn === undefined
      ? undefined
      : {
          on: addDays(setOn, round.days),
          because: `${everyWords(round.days)} from ${setOn} on, when it was set. ${NEVER}`,
        };
  const today = localDate(input.nowMs, timeZone);
  const first = setOn ?? localDate(input.firstMs ?? input.nowMs, timeZone);
  if (setOn === undefined && (round.catchUp || isMissed(round.day, first, today))) return undefined;
  // Of the years before this one nobody knows anything.
  const thisYear = addDays(today, 1 - NEAR_DAYS);
  return { on: nextOn(round.day, first > thisYear ? first : thisYear), because: withSince(NEVER, round) };
}

/** A well that came to be known here after its day is not left until the next year, while the season for it lasts: it catches up. */
function isMissed(day: string, first: string, today: string): boolean {
  const season = nextOn(day, addDays(first, -SEASON_DAYS));
  return season < first && today <= addDays(season, SEASON_DAYS);
}

function roundAfter(round: Round, lastOn: string): Call {
  return round.is === 'days'
    ? { on: addDays(lastOn, round.days), because: `${everyWords(round.days)}, and last done on ${lastOn}.` }
    : {
        on: nextOn(round.day, addDays(lastOn, NEAR_DAYS)),
        because: withSince(`Each year, and last done on ${lastOn}.`, round),
      };
}

function withSince(because: string, { since }: { since?: string }): string {
  return since === undefined ? because : `${since} ${because}`;
}

function everyWords(days: number): string {
  if (days === 365) return 'Each year';
  return days === 1 ? 'Each day' : `Every ${days} days`;
}
