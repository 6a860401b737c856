/**
 * One line of what somebody knows, with its end: "guests until Sunday", "watering the new lawn
 * until the 20th", "laid up for 3 months". A day means to its end, in the well's own time zone.
 * What can mean two days is refused and both are named: a wrong end would hide an alarm or raise
 * one. What was understood is shown before anything is sent.
 */
import { DAY_MS, HOUR_MS } from '../units/duration.ts';
import { localToUtcMs, daysInMonth, localMoment, addDays, type LocalMoment } from './local-moment.ts';
import { parseDay, type ParsedDay } from './parse-day.ts';
import { texts } from './texts.ts';

export type ParsedNote = { is: 'expected' | 'laid-up'; text: string; untilMs: number } | { problem: string };

/** Further ahead it is no passing thing but belongs on the card. */
const MAX_AHEAD_MS = 2 * 366 * DAY_MS;
const MAX_TEXT_CHARACTERS = 200;

const UNTIL = /^(.*)\b(?:until|till|til|through)\b\s+(.+?)[\s.!]*$/i;
const FOR = /^(.*?)[\s,:;]*\bfor\s+(?:the\s+next\s+|another\s+)?(\S+)\s+(hour|day|week|month)s?[\s.!]*$/i;
const NUMBER_WORDS: Record<string, number> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
};

/** Words that say that the well itself stands still. Anything else is more use, or less. */
const OUT_OF_USE =
  /\b(laid up|laying up|lay up|shut down|closed up|winteri[sz]ed|drained|standing still|stands still|not in use|out of use)\b/i;

/** What `line` says at `nowMs`. */
export function parseNote(line: string, nowMs: number, timeZone: string): ParsedNote {
  const text = line.replace(/\s+/g, ' ').trim();
  if (text === '') return { problem: texts().whatAndUntil };
  if (text.length > MAX_TEXT_CHARACTERS) return { problem: texts().tooLong(MAX_TEXT_CHARACTERS) };
  const end = parseEnd(text, nowMs, timeZone);
  if ('problem' in end) return end;
  if (end.untilMs <= nowMs) return { problem: texts().endIsPast };
  if (end.untilMs - nowMs > MAX_AHEAD_MS) return { problem: texts().tooFarAhead };
  if (end.what === '') return { problem: texts().whatIsIt };
  return { is: OUT_OF_USE.test(end.what) ? 'laid-up' : 'expected', text: end.what, untilMs: end.untilMs };
}

type End = { what: string; untilMs: number } | { problem: string };

function parseEnd(text: string, nowMs: number, timeZone: string): End {
  const span = FOR.exec(text);
  if (span) return endAfterSpan(span, nowMs, timeZone);
  const until = UNTIL.exec(text);
  if (!until) return { problem: missingEndProblem(text) };
  const [, before = '', when = ''] = until;
  const what = before.replace(/[\s,:;]+$/, '');
  const day = parseDay(when, localMoment(nowMs, timeZone));
  return 'problem' in day ? day : { what, untilMs: endMs(day, timeZone) };
}

function missingEndProblem(text: string): string {
  if (/\bfor (the )?(winter|summer|spring|fall|autumn|season)\b/i.test(text)) return texts().season;
  return texts().noEnd;
}

/** To the end of a day, unless a time is named. */
function endMs(day: ParsedDay & { date: LocalMoment }, timeZone: string): number {
  const { date, time } = day;
  const moment = time ? { ...date, ...time } : { ...addDays(date, 1), hour: 0, minute: 0 };
  return localToUtcMs(moment, timeZone);
}

function endAfterSpan(
  [, what = '', count = '', unit = '']: RegExpExecArray,
  nowMs: number,
  timeZone: string,
): End {
  const n = NUMBER_WORDS[count.toLowerCase()] ?? (/^\d{1,3}$/.test(count) ? Number(count) : undefined);
  if (n === undefined || n === 0) return { problem: texts().howMany(unit) };
  if (unit.toLowerCase() === 'hour') return { what, untilMs: nowMs + n * HOUR_MS };
  const today = localMoment(nowMs, timeZone);
  const date = addUnits(today, n, unit.toLowerCase());
  return { what, untilMs: endMs({ date }, timeZone) };
}

function addUnits(today: LocalMoment, n: number, unit: string): LocalMoment {
  if (unit !== 'month') return addDays(today, unit === 'week' ? 7 * n : n);
  const months = today.year * 12 + today.month - 1 + n;
  const [year, month] = [Math.floor(months / 12), (months % 12) + 1];
  // A month after 31 January is the last of February.
  return { ...today, year, month, day: Math.min(today.day, daysInMonth(year, month)) };
}
