/**
 * Water tests of a well: each result as it was written and beside the published limits, what is due
 * next, what to ask for.
 */
import type { Answer } from '../../../shared/api/routes.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { YEARLY_ANALYTES, YEAR_DAYS } from '../../../shared/water/advice.ts';
import { addDays } from '../../logbook/due/dates.ts';
import { dueChecks } from '../../logbook/due/due.ts';
import { waterTestAnswers } from '../../logbook/entries/water-answers.ts';
import { waterTests, type WaterTest } from '../../logbook/entries/water-tests.ts';
import type { WebDeps } from '../deps.ts';
import { dueRow } from './due-answers.ts';
import { loadDueContext, dueInputFor } from './due-input.ts';
import { requireWell } from './well-answers.ts';
import { analyteName } from '../../../shared/text/en/logbook/analyte-names.ts';

export async function waterAnswer(deps: WebDeps, name: string): Promise<Answer<'water'>> {
  const input = await dueInputFor(deps, await requireWell(deps, name), await loadDueContext(deps, name));
  const { timeZone } = input.card;
  const today = localDate(input.nowMs, timeZone);
  const tests = waterTests(input.entries, timeZone);
  const next = dueChecks(input).find(({ check }) => check === 'water-test');
  return {
    nowMs: input.nowMs,
    today,
    timeZone,
    tests: waterTestAnswers(tests, { today, stock: input.card.uses.includes('stock') }),
    ...(next && { next: dueRow(next, input) }),
    missingYearly: untestedYearly(tests, addDays(today, -YEAR_DAYS)),
  };
}

/** Of the four that are tested each year, those that nobody looked for since a day. */
function untestedYearly(tests: readonly WaterTest[], since: string): string[] {
  const fresh = tests.filter(({ sampleDate }) => sampleDate > since);
  return YEARLY_ANALYTES.filter(
    (key) => !fresh.some(({ results }) => results.some(({ result }) => result.key === key)),
  ).map((key) => analyteName(key));
}
