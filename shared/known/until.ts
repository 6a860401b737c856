/**
 * One line of what somebody knows, with its end: "guests until Sunday", "watering the new lawn until the 20th", "laid up for 3 months".
 * A day means to its end, in the well's own time zone. What can mean two days is refused and both are named: a wrong end would hide
 * an alarm or raise one. What was understood is shown before anything is sent.
 */
import { atLocalMs, daysInMonth, localMoment, plusDays, type LocalMoment } from './local-moment.ts';
import { dayNamed, MONTHS, type DayNamed } from './day-named.ts';

export type Known = { is: 'expected' | 'laid-up'; text: string; untilMs: number } | { problem: string };

/** Further ahead it is no passing thing but belongs on the card. */
const FARTHEST_MS = 2 * 366 * 86_400_000;
const LONGEST_TEXT = 200;

const UNTIL = /^(.*)\b(?:until|till|til|through)\b\s+(.+?)[\s.!]*$/i;
const FOR = /^(.*?)[\s,:;]*\bfor\s+(?:the\s+next\s+|another\s+)?(\S+)\s+(hour|day|week|month)s?[\s.!]*$/i;
const COUNTS: Record<string, number> = { a: 1, an: 1, one: 1, two: 2, three: 3, four: 4, five: 5, six: 6 };

/** Words that say that the well itself stands still. Anything else is more use, or less. */
const STANDS_STILL =
  /\b(laid up|laying up|lay up|shut down|closed up|winteri[sz]ed|drained|standing still|stands still|not in use|out of use)\b/i;

/** What `line` says at `nowMs`. */
export function knownIn(line: string, nowMs: number, timeZone: string): Known {
  const text = line.replace(/\s+/g, ' ').trim();
  if (text === '') return { problem: 'Write what it is and until when, such as “guests until Sunday”.' };
  if (text.length > LONGEST_TEXT) return { problem: `One line of at most ${LONGEST_TEXT} letters.` };
  const end = endOf(text, nowMs, timeZone);
  if ('problem' in end) return end;
  if (end.untilMs <= nowMs) return { problem: 'That end is past already. When will it be over?' };
  if (end.untilMs - nowMs > FARTHEST_MS)
    return { problem: 'That is more than two years ahead. What lasts that long belongs on the card.' };
  if (end.what === '') return { problem: 'And what is it? Write for example “guests until Sunday”.' };
  return { is: STANDS_STILL.test(end.what) ? 'laid-up' : 'expected', text: end.what, untilMs: end.untilMs };
}

type End = { what: string; untilMs: number } | { problem: string };

function endOf(text: string, nowMs: number, timeZone: string): End {
  const span = FOR.exec(text);
  if (span) return afterSpan(span, nowMs, timeZone);
  const until = UNTIL.exec(text);
  if (!until) return { problem: noEnd(text) };
  const [, before = '', when = ''] = until;
  const what = before.replace(/[\s,:;]+$/, '');
  const day = dayNamed(when, localMoment(nowMs, timeZone));
  return 'problem' in day ? day : { what, untilMs: endMs(day, timeZone) };
}

function noEnd(text: string): string {
  if (/\bfor (the )?(winter|summer|spring|fall|autumn|season)\b/i.test(text))
    return 'A season has no certain last day. Write a date, such as “until 15 April”.';
  return 'When is it over? Add “until Sunday”, “until 12 May” or “for 3 weeks”.';
}

/** To the end of a day, unless a time is named. */
function endMs(day: DayNamed & { date: LocalMoment }, timeZone: string): number {
  const { date, clock } = day;
  const moment = clock ? { ...date, ...clock } : { ...plusDays(date, 1), hour: 0, minute: 0 };
  return atLocalMs(moment, timeZone);
}

function afterSpan(
  [, what = '', count = '', unit = '']: RegExpExecArray,
  nowMs: number,
  timeZone: string,
): End {
  const n = COUNTS[count.toLowerCase()] ?? (/^\d{1,3}$/.test(count) ? Number(count) : undefined);
  if (n === undefined || n === 0)
    return { problem: `For how many ${unit}s? Write a number, such as “for 3 ${unit}s”.` };
  if (unit.toLowerCase() === 'hour') return { what, untilMs: nowMs + n * 3_600_000 };
  const today = localMoment(nowMs, timeZone);
  const date = later(today, n, unit.toLowerCase());
  return { what, untilMs: endMs({ date }, timeZone) };
}

function later(today: LocalMoment, n: number, unit: string): LocalMoment {
  if (unit !== 'month') return plusDays(today, unit === 'week' ? 7 * n : n);
  const months = today.year * 12 + today.month - 1 + n;
  const [year, month] = [Math.floor(months / 12), (months % MONTHS.length) + 1];
  // A month after 31 January is the last of February.
  return { ...today, year, month, day: Math.min(today.day, daysInMonth(year, month)) };
}
