/**
 * When a check comes round on this well: another interval or day of the year than the usual, the next time by hand, or not at all; and
 * checks that people make themselves, which have a title of their own. The last plan of a check is the one that holds.
 */
import { isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import {
  nameAt,
  required,
  addIssue,
  textAt,
  fieldValue,
  type ParseContext,
} from '../../core/domain/parse-context.ts';
import { isIsoDate } from '../../core/domain/rfc3339.ts';
import { MAX_INTERVAL_DAYS, MAX_NAME_LENGTH, MAX_NOTE_LENGTH } from './limits.ts';
import type { BodyReader } from './read-entry.ts';

export const checkPlanBody: BodyReader = {
  keys: ['check', 'title', 'everyDays', 'on', 'next', 'off', 'text'],
  check(look) {
    const check = required(look, 'check', nameAt(look, 'check'));
    const title = textAt(look, 'title', MAX_NAME_LENGTH);
    if (check !== undefined && !isDueKind(check)) required(look, 'title', title);
    wholeDaysAt(look, 'everyDays');
    dayOfYearAt(look, 'on');
    dateAt(look, 'next');
    if (fieldValue(look, 'everyDays') !== undefined && fieldValue(look, 'on') !== undefined)
      addIssue(look, 'on', 'must not stand beside everyDays: a check comes round by one of them');
    const off = fieldValue(look, 'off');
    if (off !== undefined && typeof off !== 'boolean') addIssue(look, 'off', 'must be true or false');
    textAt(look, 'text', MAX_NOTE_LENGTH);
  },
};

function wholeDaysAt(look: ParseContext, key: string): void {
  const value = fieldValue(look, key);
  if (value === undefined) return;
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 1 || value > MAX_INTERVAL_DAYS)
    addIssue(look, key, `must be a whole number of days from 1 to ${MAX_INTERVAL_DAYS}`);
}

/** Beyond these a day is a slip of the pen, and calendars have no such dates. */
const MIN_NEXT_DATE = '2000-01-01';
const MAX_NEXT_DATE = '2199-12-31';

/** A day that is in every year. */
function dayOfYearAt(look: ParseContext, key: string): void {
  const value = fieldValue(look, key);
  if (value !== undefined && (typeof value !== 'string' || !isIsoDate(`2025-${value}`)))
    addIssue(look, key, 'must be a day of every year such as "10-01"');
}

function dateAt(look: ParseContext, key: string): void {
  const value = fieldValue(look, key);
  if (value === undefined) return;
  if (typeof value !== 'string' || !isIsoDate(value))
    addIssue(look, key, 'must be a date of the calendar such as "2027-04-01"');
  else if (value < MIN_NEXT_DATE || value > MAX_NEXT_DATE)
    addIssue(look, key, `must be from ${MIN_NEXT_DATE} to ${MAX_NEXT_DATE}`);
}
