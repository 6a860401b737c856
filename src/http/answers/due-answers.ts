/**
 * What is due: on all wells up to a day, on one well with everything that was done, and as a
 * calendar.
 */
import type { CheckRowAnswer, DueRowAnswer, TargetAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import { checkCompletions } from '../../logbook/due/check-completions.ts';
import { addDays, daysBetween } from '../../logbook/due/dates.ts';
import { dueChecks, type DueCheck } from '../../logbook/due/due.ts';
import { DUE_SOON_DAYS } from '../../logbook/due/due-date.ts';
import { dueGroup, type DueGroup } from '../../logbook/due/due-groups.ts';
import { latestPlans } from '../../logbook/due/check-plans.ts';
import type { DowntimeDates } from '../../logbook/due/due-downtime.ts';
import { checkLocation } from '../../logbook/due/check-location.ts';
import type { PrechargeTarget } from '../../logbook/readings/precharge-target.ts';
import type { ApiRequest } from '../api-request.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { loadDueContext, dueInputFor, type WellDueInput } from './due-input.ts';
import { mapInSlices } from '../in-slices.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

/** The wells that a question is about. @throws ProblemError 404. */
export async function selectWells(
  deps: WebDeps,
  { well, site }: { well?: string; site?: string },
): Promise<LiveWell[]> {
  if (well !== undefined) return [await requireWell(deps, well)];
  const names = (await deps.live.wells()).map(({ well: name }) => name);
  const all = (await mapInSlices(names, (name) => deps.live.well(name))).flatMap((live) => live ?? []);
  const found = site === undefined ? all : all.filter(({ card }) => card.site === site);
  if (site !== undefined && found.length === 0) throw new ProblemError(404, texts().noWellAtSite(site));
  return found;
}

export async function dueAnswer(deps: WebDeps, { query }: ApiRequest<'due'>): Promise<Answer<'due'>> {
  const nowMs = deps.now();
  const until = query.until ?? addDays(localDate(nowMs, 'UTC'), query.days ?? DUE_SOON_DAYS);
  const wells = await selectWells(deps, query);
  const around = await loadDueContext(deps, query.well);
  const listed = await mapInSlices(wells, async (live) =>
    listWell(await dueInputFor(deps, live, around), until),
  );
  const rowsIn = (wanted: DueGroup): DueRowAnswer[] =>
    listed
      .flatMap(({ rows }) => rows.flatMap(({ group, row }) => (group === wanted ? [row] : [])))
      .toSorted(compareByDate);
  return {
    nowMs,
    until,
    wells: wells.length,
    due: rowsIn('dated'),
    notRecorded: rowsIn('not-recorded'),
    notRecordedTotal: {
      checks: listed.reduce((sum, { notRecorded }) => sum + notRecorded, 0),
      wells: listed.filter(({ notRecorded }) => notRecorded > 0).length,
    },
    onHold: rowsIn('on-hold'),
  };
}

/** What the list shows of a well, and how many of its checks nobody wrote down. */
function listWell(
  input: WellDueInput,
  until: string,
): { rows: { group: DueGroup; row: DueRowAnswer }[]; notRecorded: number } {
  const checks = dueChecks(input);
  const rows = checks.flatMap((check) => {
    const group = dueGroup(check, until);
    return group === undefined ? [] : [{ group, row: { ...wellFields(input), ...dueRow(check, input) } }];
  });
  return { rows, notRecorded: checks.filter(({ state }) => state === 'not-recorded').length };
}

function wellFields({ card: { well, site } }: WellDueInput): Pick<DueRowAnswer, 'well' | 'site'> {
  return { well, ...(site !== undefined && { site }) };
}

function compareByDate(a: DueRowAnswer, b: DueRowAnswer): number {
  const day = ({ dueDate, proposedDate }: DueRowAnswer): string => dueDate ?? proposedDate ?? '9999';
  return day(a).localeCompare(day(b)) || a.well.localeCompare(b.well) || a.title.localeCompare(b.title);
}

/** What a list shows of a check. */
export function dueRow(check: DueCheck, { nowMs, card }: WellDueInput): Omit<DueRowAnswer, 'well' | 'site'> {
  const { custom, title, state, dueDate, proposedDate, reasons, last, target, onHold } = check;
  return {
    check: check.check,
    ...(custom && { custom }),
    title,
    state,
    reasons,
    ...(dueDate !== undefined && {
      dueDate,
      lateDays: daysBetween(dueDate, localDate(nowMs, card.timeZone)),
    }),
    ...(proposedDate !== undefined && { proposedDate }),
    ...(last?.completed && { lastDate: last.date }),
    ...(target && { target: targetAnswer(target) }),
    ...(onHold && { onHold: onHoldAnswer(onHold) }),
  };
}

function onHoldAnswer({ is, sinceDate, untilDate }: DowntimeDates): NonNullable<DueRowAnswer['onHold']> {
  return { is, sinceDate, ...(untilDate !== undefined && { untilDate }) };
}

function targetAnswer(target: PrechargeTarget): TargetAnswer {
  if (target.is === 'unknown') return { reason: target.reason };
  const { kpa, cutInKpa, from } = target;
  return { kpa, cutInKpa, from };
}

export async function checksAnswer(deps: WebDeps, name: string): Promise<Answer<'checks'>> {
  const input = await dueInputFor(deps, await requireWell(deps, name), await loadDueContext(deps, name));
  const plans = latestPlans(input.entries);
  return {
    nowMs: input.nowMs,
    today: localDate(input.nowMs, input.card.timeZone),
    timeZone: input.card.timeZone,
    checks: dueChecks(input).map((check) => checkRow(check, input, plans.get(check.check)?.id)),
  };
}

function checkRow(check: DueCheck, input: WellDueInput, plan: string | undefined): CheckRowAnswer {
  const words = isDueKind(check.check) ? DUE_WORDS[check.check] : undefined;
  const where = checkLocation(check.check, input.card);
  return {
    ...dueRow(check, input),
    how: [...(words?.steps ?? [])],
    ...(words && { why: words.why, source: words.source }),
    cautions: check.cautions.map((caution) => CAUTIONS[caution]),
    ...(check.text !== undefined && { text: check.text }),
    ...(where !== undefined && { location: where }),
    ...(check.recurrence && {
      recurrence:
        check.recurrence.is === 'days' ? check.recurrence : { is: 'yearly', day: check.recurrence.day },
    }),
    ...(words?.value?.dimension === 'pressure' && {
      value: { question: words.value.question, dimension: words.value.dimension },
    }),
    ...(plan !== undefined && { plan }),
    completions: checkCompletions(check.check, input).map(({ completed: _counts, ...done }) => done),
  };
}
