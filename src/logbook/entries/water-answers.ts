/**
 * Water tests as pages and files show them: each result as it was written and beside its limits.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { WaterResultAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import { documentsOf } from '../../../shared/entries/entry.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { adviceFor } from '../../../shared/water/advice.ts';
import { compareElsewhere, compareResult, plausibilityQuestion } from '../../../shared/water/compare.ts';
import { hardnessClass } from '../../../shared/water/hardness.ts';
import { limitWords, type Limit } from '../../../shared/water/limits.ts';
import { stockStep } from '../../../shared/water/stock-levels.ts';
import { addDays } from '../due/dates.ts';
import type { WaterTest } from './water-tests.ts';

/** Newest first. `tests` oldest first; limits are those that hold on the day `today`. */
export function waterTestAnswers(
  tests: readonly WaterTest[],
  { today, stock }: { today: string; stock: boolean },
): WaterTestAnswer[] {
  return tests.map((test, at) => testAnswer(test, { today, stock, newer: tests.slice(at + 1) })).toReversed();
}

interface ResultContext {
  today: string;
  /** Livestock drink of this well. */
  stock: boolean;
  /** Tests since: what they looked for again is answered by them. */
  newer: readonly WaterTest[];
}

function testAnswer(test: WaterTest, context: ResultContext): WaterTestAnswer {
  const { id, atMs, by, body } = test.entry;
  const { results: _results, papers: _papers, ...texts } = body;
  return omitUndefined({
    id,
    sampleDate: test.sampleDate,
    atMs,
    by,
    ...texts,
    documents: documentsOf(test.entry),
    results: test.results.map((one) => resultAnswer(one, test.sampleDate, context)),
  });
}

function resultAnswer(
  { written, result }: WaterTest['results'][number],
  on: string,
  { today, stock, newer }: ResultContext,
): WaterResultAnswer {
  const { key, name, is, value, unit, remark } = result;
  const compared = compareResult(result, { drawnOn: on, today });
  const again = newer.some(({ results }) => results.some((one) => one.result.name === result.name));
  const advice = again ? undefined : adviceFor(result, compared);
  const isHardness = key === 'hardness' && is === 'value' && value !== undefined;
  return omitUndefined({
    analyte: written.analyte,
    written: [written.value, written.unit].filter((part) => part !== undefined && part !== '').join(' '),
    key,
    name,
    is,
    value,
    unit,
    remark,
    plausibilityQuestion: plausibilityQuestion(result, today),
    hardnessClass: isHardness ? hardnessClass(value) : undefined,
    comparisons: compared.map(({ limit, verdict, atSampling }) => ({
      limit: limitAnswer(limit),
      verdict,
      ...(atSampling && {
        atSampling: { limit: limitAnswer(atSampling.limit), verdict: atSampling.verdict },
      }),
    })),
    elsewhere: compareElsewhere(result).map(({ limit: { analyte: _analyte, ...limit }, verdict }) => ({
      limit,
      verdict,
    })),
    stock: stock ? stockStep(result) : undefined,
    advice: advice && {
      text: advice.text,
      ...(advice.retestDays !== undefined && { retestDate: addDays(on, advice.retestDays) }),
      cautions: advice.cautions.map((caution) => CAUTIONS[caution]),
    },
  });
}

function limitAnswer(limit: Limit): WaterResultAnswer['comparisons'][number]['limit'] {
  const { analyte: _analyte, citation: _citation, note: _note, ...rest } = limit;
  return { ...rest, ...limitWords(limit) };
}
