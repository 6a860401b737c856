/** What is due: on all wells up to a day, on one well with everything that was done, and as a calendar. */
import type { CheckRowAnswer, DueRowAnswer, TargetAnswer } from '../../shared/api/due.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { DUE_WORDS, isDueKind } from '../../shared/words/due-words.ts';
import { timesDone } from '../book/check-done.ts';
import { addDays, daysBetween } from '../book/days.ts';
import { dueChecks, type DueCheck } from '../book/due.ts';
import { SOON_DAYS } from '../book/due-date.ts';
import { dueGroup, type DueGroup } from '../book/due-groups.ts';
import { plansOf } from '../book/due-plans.ts';
import type { RestDays } from '../book/due-rest.ts';
import { placeOf } from '../book/due-place.ts';
import type { Target } from '../book/precharge-target.ts';
import type { Ask } from './ask.ts';
import type { LiveWell, WebDeps } from './deps.ts';
import { aroundWells, dueWell, type DueWell } from './due-parts.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

/** The wells that a question is about. @throws ProblemError 404. */
export function wellsAsked(deps: WebDeps, { well, site }: { well?: string; site?: string }): LiveWell[] {
  if (well !== undefined) return [wellNamed(deps, well)];
  const all = deps.live.wells().flatMap((now) => deps.live.well(now.well) ?? []);
  const found = site === undefined ? all : all.filter(({ card }) => card.site === site);
  if (site !== undefined && found.length === 0)
    throw new ProblemError(404, `No well is at a site called ${site}.`);
  return found;
}

export function dueAnswer(deps: WebDeps, { query }: Ask<'due'>): Answer<'due'> {
  const nowMs = deps.now();
  const until = query.until ?? addDays(localDate(nowMs, 'UTC'), query.days ?? SOON_DAYS);
  const wells = wellsAsked(deps, query);
  const around = aroundWells(deps, query.well);
  const found = wells.flatMap((live) => {
    const input = dueWell(deps, live, around);
    return dueChecks(input).map((check) => ({
      group: dueGroup(check, until),
      row: { ...placeFields(input), ...dueRow(check, input) },
    }));
  });
  const rowsIn = (group: DueGroup): DueRowAnswer[] =>
    found.flatMap((one) => (one.group === group ? [one.row] : [])).toSorted(byDay);
  const unwritten = found.filter(({ row }) => row.state === 'unwritten');
  return {
    nowMs,
    until,
    wells: wells.length,
    due: rowsIn('dated'),
    unwritten: rowsIn('unwritten'),
    unwrittenInAll: {
      checks: unwritten.length,
      wells: new Set(unwritten.map(({ row }) => row.well)).size,
    },
    atRest: rowsIn('at-rest'),
  };
}

function placeFields({ card: { well, site } }: DueWell): Pick<DueRowAnswer, 'well' | 'site'> {
  return { well, ...(site !== undefined && { site }) };
}

function byDay(a: DueRowAnswer, b: DueRowAnswer): number {
  const day = ({ on, proposedOn }: DueRowAnswer): string => on ?? proposedOn ?? '9999';
  return day(a).localeCompare(day(b)) || a.well.localeCompare(b.well) || a.title.localeCompare(b.title);
}

/** What a list shows of a check. */
export function dueRow(check: DueCheck, { nowMs, card }: DueWell): Omit<DueRowAnswer, 'well' | 'site'> {
  const { own, title, state, on, proposedOn, because, last, target, atRest } = check;
  return {
    check: check.check,
    ...(own && { own }),
    title,
    state,
    because,
    ...(on !== undefined && { on, lateDays: daysBetween(on, localDate(nowMs, card.timeZone)) }),
    ...(proposedOn !== undefined && { proposedOn }),
    ...(last?.counts && { lastOn: last.on }),
    ...(target && { target: targetAnswer(target) }),
    ...(atRest && { atRest: restAnswer(atRest) }),
  };
}

function restAnswer({ is, sinceOn, untilOn }: RestDays): NonNullable<DueRowAnswer['atRest']> {
  return { is, sinceOn, ...(untilOn !== undefined && { untilOn }) };
}

function targetAnswer(target: Target): TargetAnswer {
  if (target.is === 'unknown') return { why: target.why };
  const { kpa, cutInKpa, from } = target;
  return { kpa, cutInKpa, from };
}

export function checksAnswer(deps: WebDeps, name: string): Answer<'checks'> {
  const input = dueWell(deps, wellNamed(deps, name), aroundWells(deps, name));
  const plans = plansOf(input.entries);
  return {
    nowMs: input.nowMs,
    today: localDate(input.nowMs, input.card.timeZone),
    timeZone: input.card.timeZone,
    checks: dueChecks(input).map((check) => checkRow(check, input, plans.get(check.check)?.id)),
  };
}

function checkRow(check: DueCheck, input: DueWell, plan: string | undefined): CheckRowAnswer {
  const words = isDueKind(check.check) ? DUE_WORDS[check.check] : undefined;
  const where = placeOf(check.check, input.card);
  return {
    ...dueRow(check, input),
    how: [...(words?.how ?? [])],
    ...(words && { why: words.why, source: words.source }),
    cautions: check.cautions.map((caution) => CAUTIONS[caution]),
    ...(check.text !== undefined && { text: check.text }),
    ...(where !== undefined && { where }),
    ...(check.round && {
      round: check.round.is === 'days' ? check.round : { is: 'on', day: check.round.day },
    }),
    ...(words?.value?.dimension === 'pressure' && {
      value: { asks: words.value.asks, dimension: words.value.dimension },
    }),
    ...(plan !== undefined && { plan }),
    done: timesDone(check.check, input).map(({ counts: _counts, ...done }) => done),
  };
}
