/**
 * The results of a water test, by analyte and unit, as the laboratory wrote them. Each is read here once, so that what is kept can be
 * compared for ever; a slip is told with the number of its line.
 */
import { readResult, type WrittenResult } from '../../shared/water/result.ts';
import { note, shown, textAt, valueOf, type Look } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE, MOST_RESULTS } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

const RESULT_KEYS = ['analyte', 'value', 'unit'] as const;

export const waterTestBody: Body = {
  keys: ['laboratory', 'place', 'why', 'results', 'text', 'papers'],
  check(look) {
    textAt(look, 'laboratory', LONGEST_NAME);
    textAt(look, 'place', LONGEST_NAME);
    textAt(look, 'why', LONGEST_NAME);
    checkResults(look);
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};

function checkResults(look: Look): void {
  const results = valueOf(look, 'results');
  if (!Array.isArray(results) || results.length === 0 || results.length > MOST_RESULTS)
    return note(look, 'results', `must be a list of 1 to ${MOST_RESULTS} results`);
  results.forEach((one: unknown, at) => {
    const written = writtenResult(one);
    const place = `results.${at + 1}`;
    if (!written) return note(look, place, `must have ${RESULT_KEYS.join(', ')} as text`, shown(one));
    const read = readResult(written);
    if ('problem' in read) {
      const { key, rule } = read.problem;
      note(look, `${place}.${key}`, rule, JSON.stringify(written[key] ?? ''));
    }
  });
}

/** A result with texts under its own keys and no others. */
export function writtenResult(value: unknown): WrittenResult | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const known: readonly string[] = RESULT_KEYS;
  if (!Object.entries(value).every(([key, text]) => known.includes(key) && typeof text === 'string'))
    return undefined;
  const texts: Record<string, string> = { ...value };
  const { analyte, value: said, unit } = texts;
  if (analyte === undefined || said === undefined) return undefined;
  return { analyte, value: said, ...(unit === undefined ? {} : { unit }) };
}
