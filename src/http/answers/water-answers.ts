/**
 * Water tests of a well: each result as it was written and beside the published limits, what is due
 * next, what to ask for.
 */
import type { WaterResultAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { adviceFor, YEARLY_ANALYTES, YEAR_DAYS } from '../../../shared/water/advice.ts';
import { ANALYTES } from '../../../shared/water/analytes.ts';
import { hardnessClass } from '../../../shared/water/hardness.ts';
import { compareResult, plausibilityQuestion } from '../../../shared/water/compare.ts';
import type { Limit } from '../../../shared/water/limits.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { addDays } from '../../logbook/due/dates.ts';
import { dueChecks } from '../../logbook/due/due.ts';
import { waterTests, type WaterTest } from '../../logbook/entries/water-tests.ts';
import type { WebDeps } from '../deps.ts';
import { dueRow } from './due-answers.ts';
import { loadDueContext, dueInputFor } from './due-input.ts';
import { requireWell } from './well-answers.ts';

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
    tests: tests.map((test, at) => testAnswer(test, { today, newer: tests.slice(at + 1) })).toReversed(),
    ...(next && { next: dueRow(next, input) }),
    missingYearly: untestedYearly(tests, addDays(today, -YEAR_DAYS)),
  };
}

/** Of the four that are tested each year, those that nobody looked for since a day. */
function untestedYearly(tests: readonly WaterTest[], since: string): string[] {
  const fresh = tests.filter(({ sampleDate }) => sampleDate > since);
  return YEARLY_ANALYTES.filter(
    (key) => !fresh.some(({ results }) => results.some(({ result }) => result.key === key)),
  ).map((key) => ANALYTES[key].name);
}

interface ResultContext {
  today: string;
  /** Tests since: what they looked for again is answered by them. */
  newer: readonly WaterTest[];
}

function testAnswer(test: WaterTest, context: ResultContext): WaterTestAnswer {
  const { id, atMs, by, body } = test.entry;
  const text = (key: string): Record<string, string> => {
    const value = body[key];
    return typeof value === 'string' ? { [key]: value } : {};
  };
  const papers: unknown[] = Array.isArray(body['papers']) ? body['papers'] : [];
  return {
    id,
    sampleDate: test.sampleDate,
    atMs,
    ...(by !== undefined && { by }),
    ...text('laboratory'),
    ...text('place'),
    ...text('why'),
    ...text('text'),
    documents: papers.filter((one) => typeof one === 'string'),
    results: test.results.map((one) => resultAnswer(one, test.sampleDate, context)),
  };
}

function resultAnswer(
  { written, result }: WaterTest['results'][number],
  on: string,
  { today, newer }: ResultContext,
): WaterResultAnswer {
  const { key, name, is, value, unit, remark } = result;
  const compared = compareResult(result, { drawnOn: on, today });
  const again = newer.some(({ results }) => results.some((one) => one.result.name === result.name));
  const advice = again ? undefined : adviceFor(result, compared);
  const odd = plausibilityQuestion(result, today);
  return {
    analyte: written.analyte,
    written: [written.value, written.unit].filter((part) => part !== undefined && part !== '').join(' '),
    ...(key !== undefined && { key }),
    name,
    is,
    ...(value !== undefined && { value }),
    unit,
    ...(remark !== undefined && { remark }),
    ...(odd !== undefined && { plausibilityQuestion: odd }),
    ...(key === 'hardness' &&
      is === 'value' &&
      value !== undefined && { hardnessClass: hardnessClass(value) }),
    comparisons: compared.map(({ limit, verdict, atSampling }) => ({
      limit: limitAnswer(limit),
      verdict,
      ...(atSampling && {
        atSampling: { limit: limitAnswer(atSampling.limit), verdict: atSampling.verdict },
      }),
    })),
    ...(advice && {
      advice: {
        text: advice.text,
        ...(advice.retestDays !== undefined && { retestDate: addDays(on, advice.retestDays) }),
        cautions: advice.cautions.map((caution) => CAUTIONS[caution]),
      },
    }),
  };
}

function limitAnswer({ analyte: _analyte, ...limit }: Limit): Omit<Limit, 'analyte'> {
  return limit;
}
