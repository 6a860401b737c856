/**
 * When a check comes round on this well: another interval or day of the year than the usual, the
 * next time by hand, or not at all; and checks that people make themselves, which have a title of
 * their own. The last plan of a check is the one that holds.
 */
import { isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import { addIssue, fieldValue, required, type ParseContext } from '../../core/domain/parse-context.ts';
import { isIsoDate } from '../../core/domain/rfc3339.ts';
import type { EntryRule } from './read-entry.ts';
import { texts } from '../texts.ts';

export const checkPlanRule: EntryRule<'check-plan'> = (look, { check, title, everyDays, on }) => {
  if (check !== undefined && !isDueKind(check)) required(look, 'title', title);
  checkDayOfYear(look, on);
  checkNext(look, fieldValue(look, 'next'));
  if (everyDays !== undefined && on !== undefined) addIssue(look, 'on', texts().entry.notBesideEveryDays);
};

/** Beyond these a day is a slip of the pen, and calendars have no such dates. */
const MIN_NEXT_DATE = '2000-01-01';
const MAX_NEXT_DATE = '2199-12-31';

/** A day that is in every year. */
function checkDayOfYear(look: ParseContext, value: unknown): void {
  if (value !== undefined && (typeof value !== 'string' || !isIsoDate(`2025-${value}`)))
    addIssue(look, 'on', texts().entry.dayOfYear);
}

function checkNext(look: ParseContext, value: unknown): void {
  if (value === undefined) return;
  if (typeof value !== 'string' || !isIsoDate(value)) addIssue(look, 'next', texts().entry.date);
  else if (value < MIN_NEXT_DATE || value > MAX_NEXT_DATE)
    addIssue(look, 'next', texts().entry.fromTo({ from: MIN_NEXT_DATE, to: MAX_NEXT_DATE }));
}
