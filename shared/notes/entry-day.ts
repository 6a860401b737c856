/**
 * The day that somebody wrote on a form, as the moment that an entry carries: now for today, else
 * noon at the well.
 */
import { localDate } from '../text/en/time-words.ts';
import { localToUtcMs } from './local-moment.ts';
import { texts } from './texts.ts';

const NOON = 12;
const MIN_YEAR = 1850;

/**
 * RFC 3339 text, or the reason why it is no day that an entry can have. `date` is what a date field
 * holds.
 */
export function entryMoment(
  date: string,
  { timeZone, nowMs }: { timeZone: string; nowMs: number },
): { at: string } | { reason: string } {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date);
  const [year, month, day] = [1, 2, 3].map((at) => Number(parts?.[at])) as [number, number, number];
  const isDay =
    parts !== null && new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10) === date;
  const { mustBeADay, mustNotLieAhead, mustNotLieBefore } = texts().entry;
  if (!isDay) return { reason: mustBeADay };
  const today = localDate(nowMs, timeZone);
  if (date > today) return { reason: mustNotLieAhead };
  if (year < MIN_YEAR) return { reason: mustNotLieBefore(MIN_YEAR) };
  if (date === today) return { at: new Date(nowMs).toISOString() };
  return { at: new Date(localToUtcMs({ year, month, day, hour: NOON, minute: 0 }, timeZone)).toISOString() };
}
