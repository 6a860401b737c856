/**
 * The day that somebody wrote on a form, as the moment that an entry carries: now for today, else
 * noon at the well.
 */
import { localDate } from '../text/en/time-words.ts';
import { localToUtcMs } from './local-moment.ts';

const NOON = 12;

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
  if (!isDay) return { reason: 'Must be a day of the calendar, such as 2026-05-31' };
  const today = localDate(nowMs, timeZone);
  if (date > today) return { reason: 'Must not lie ahead: what is written down was done' };
  if (year < 1850) return { reason: 'Must not lie before 1850' };
  if (date === today) return { at: new Date(nowMs).toISOString() };
  return { at: new Date(localToUtcMs({ year, month, day, hour: NOON, minute: 0 }, timeZone)).toISOString() };
}
