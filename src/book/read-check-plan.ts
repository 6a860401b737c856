/**
 * When a check comes round on this well: another interval or day of the year than the usual, the next time by hand, or not at all; and
 * checks that people make themselves, which have a title of their own. The last plan of a check is the one that holds.
 */
import { isDueKind } from '../../shared/words/due-words.ts';
import { nameAt, needed, note, textAt, valueOf, type Look } from '../card/look.ts';
import { isIsoDate } from '../card/rfc3339.ts';
import { LONGEST_EVERY_DAYS, LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import type { Body } from './read-entry.ts';

export const checkPlanBody: Body = {
  keys: ['check', 'title', 'everyDays', 'on', 'next', 'off', 'text'],
  check(look) {
    const check = needed(look, 'check', nameAt(look, 'check'));
    const title = textAt(look, 'title', LONGEST_NAME);
    if (check !== undefined && !isDueKind(check)) needed(look, 'title', title);
    wholeDaysAt(look, 'everyDays');
    dayOfYearAt(look, 'on');
    dateAt(look, 'next');
    if (valueOf(look, 'everyDays') !== undefined && valueOf(look, 'on') !== undefined)
      note(look, 'on', 'must not stand beside everyDays: a check comes round by one of them');
    const off = valueOf(look, 'off');
    if (off !== undefined && typeof off !== 'boolean') note(look, 'off', 'must be true or false');
    textAt(look, 'text', LONGEST_NOTE);
  },
};

function wholeDaysAt(look: Look, key: string): void {
  const value = valueOf(look, key);
  if (value === undefined) return;
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 1 || value > LONGEST_EVERY_DAYS)
    note(look, key, `must be a whole number of days from 1 to ${LONGEST_EVERY_DAYS}`);
}

/** Beyond these a day is a slip of the pen, and calendars have no such dates. */
const FIRST_NEXT = '2000-01-01';
const LAST_NEXT = '2199-12-31';

/** A day that is in every year. */
function dayOfYearAt(look: Look, key: string): void {
  const value = valueOf(look, key);
  if (value !== undefined && (typeof value !== 'string' || !isIsoDate(`2025-${value}`)))
    note(look, key, 'must be a day of every year such as "10-01"');
}

function dateAt(look: Look, key: string): void {
  const value = valueOf(look, key);
  if (value === undefined) return;
  if (typeof value !== 'string' || !isIsoDate(value))
    note(look, key, 'must be a date of the calendar such as "2027-04-01"');
  else if (value < FIRST_NEXT || value > LAST_NEXT)
    note(look, key, `must be from ${FIRST_NEXT} to ${LAST_NEXT}`);
}
