/**
 * A check that was done: which, how it came out, a value as it was found and as it was left, a remark, photos. A check that has a
 * measured value takes it with its unit, so that it can be drawn over the years.
 */
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import {
  choiceAt,
  nameAt,
  required,
  quantityAt,
  textAt,
  type ParseContext,
} from '../../core/domain/parse-context.ts';
import type { ValueRange } from '../../../shared/schema/field.ts';
import { MAX_NAME_LENGTH, MAX_NOTE_LENGTH } from './limits.ts';
import { documentRefsAt } from '../documents/document-refs.ts';
import type { BodyReader } from './read-entry.ts';

export const CHECK_OUTCOMES = ['right', 'put-right', 'not-right', 'not-done'] as const;
export type CheckOutcome = (typeof CHECK_OUTCOMES)[number];

/** As a reading of precharge that somebody brings: 300 psi, and a gauge reads no less than nothing. */
const GAUGE_LIMIT: ValueRange = { min: 0, max: 2070, text: 'between 0 and 300 psi (2,070 kPa)' };

export const checkBody: BodyReader = {
  keys: ['check', 'outcome', 'value', 'left', 'text', 'papers'],
  check(look) {
    const check = required(look, 'check', nameAt(look, 'check'));
    required(look, 'outcome', choiceAt(look, 'outcome', CHECK_OUTCOMES));
    checkValue(look, 'value', check);
    checkValue(look, 'left', check);
    textAt(look, 'text', MAX_NOTE_LENGTH);
    documentRefsAt(look, 'papers');
  },
};

function checkValue(look: ParseContext, key: string, check: string | undefined): void {
  if (textAt(look, key, MAX_NAME_LENGTH) === undefined || check === undefined || !isDueKind(check)) return;
  const dimension = DUE_WORDS[check].value?.dimension;
  if (dimension !== undefined) quantityAt(look, key, dimension, GAUGE_LIMIT);
}
