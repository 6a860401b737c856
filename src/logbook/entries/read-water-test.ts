/**
 * The results of a water test, by analyte and unit, as the laboratory wrote them. Each is read here
 * once, so that what is kept can be compared for ever; a slip is told with the number of its line.
 */
import { readResult, type WrittenResult } from '../../../shared/water/result.ts';
import { addIssue, formatValue, fieldValue, type ParseContext } from '../../core/domain/parse-context.ts';
import { MAX_RESULTS } from '../../../shared/entries/limits.ts';
import type { EntryRule } from './read-entry.ts';
import { texts } from '../texts.ts';

const RESULT_KEYS = ['analyte', 'value', 'unit'] as const;

export const waterTestRule: EntryRule<'water-test'> = (look) => checkResults(look);

function checkResults(look: ParseContext): void {
  const results = fieldValue(look, 'results');
  if (!Array.isArray(results) || results.length === 0 || results.length > MAX_RESULTS)
    return addIssue(look, 'results', texts().entry.results(MAX_RESULTS));
  results.forEach((one: unknown, at) => {
    const written = writtenResult(one);
    const place = `results.${at + 1}`;
    if (!written)
      return addIssue(look, place, texts().entry.resultKeys(RESULT_KEYS.join(', ')), formatValue(one));
    const read = readResult(written);
    if ('problem' in read) {
      const { key, rule } = read.problem;
      addIssue(
        look,
        `${place}.${key}`,
        texts().entry.ofResult({ rule, at: at + 1, analyte: written.analyte }),
        JSON.stringify(written[key] ?? ''),
      );
    }
  });
}

/** A result with texts under its own keys and no others. */
function writtenResult(value: unknown): WrittenResult | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const known: readonly string[] = RESULT_KEYS;
  if (!Object.entries(value).every(([key, text]) => known.includes(key) && typeof text === 'string'))
    return undefined;
  const { analyte, value: result, unit }: Record<string, string> = { ...value };
  if (analyte === undefined || result === undefined) return undefined;
  return { analyte, value: result, ...(unit === undefined ? {} : { unit }) };
}
