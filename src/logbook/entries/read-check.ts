/**
 * A check that measures something takes its value with the unit, so that it can be drawn over the
 * years.
 */
import { GAUGE_PRESSURE } from '../../../shared/entries/entry-fields.ts';
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import { quantityAt } from '../../core/domain/parse-context.ts';
import type { EntryRule } from './read-entry.ts';

export const checkRule: EntryRule<'check'> = (look, { check, value, left }) => {
  const dimension = check !== undefined && isDueKind(check) ? DUE_WORDS[check].value?.dimension : undefined;
  if (dimension === undefined) return;
  if (value !== undefined) quantityAt(look, 'value', dimension, GAUGE_PRESSURE);
  if (left !== undefined) quantityAt(look, 'left', dimension, GAUGE_PRESSURE);
};
