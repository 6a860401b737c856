/**
 * Which day somebody names by "Sunday", "the 20th", "12 May", "the end of the month", and the time
 * of day with it, seen from today.
 */
import { DAY_MS } from '../units/duration.ts';
import { daysInMonth, addDays, weekdayOf, type LocalMoment } from './local-moment.ts';

export interface ParsedDay {
  date: LocalMoment;
  time?: { hour: number; minute: number };
}
type DayResult = ParsedDay | { problem: string };

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;
const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

/**
 * A day of the year that was less than this long ago was more likely misremembered than meant for
 * next year.
 */
const JUST_PAST_DAYS = 60;

const TIME_OF_DAY =
  /^(.*?)[\s,]*\b(?:at\s+)?(noon|midday|midnight|(\d{1,2})(?::(\d{2}))?\s*(am|pm)|(\d{1,2}):(\d{2}))$/i;

/** The day that `words` name. */
export function parseDay(words: string, today: LocalMoment): DayResult {
  const withTime = TIME_OF_DAY.exec(words.trim());
  if (!withTime) return parseDate(normalizeWords(words), today);
  const time = parseTimeOfDay(withTime);
  if ('problem' in time) return time;
  const day = normalizeWords(withTime[1] ?? '');
  const found = day === '' ? { date: today } : parseDate(day, today);
  return 'problem' in found ? found : { date: found.date, time };
}

function normalizeWords(words: string): string {
  return words.trim().toLowerCase().replace(/[,.]/g, ' ').replace(/\s+/g, ' ').trim();
}

function parseTimeOfDay(parts: RegExpExecArray): { hour: number; minute: number } | { problem: string } {
  const [, , whole = '', h12, m12, half, h24, m24] = parts;
  if (/^(noon|midday)$/i.test(whole)) return { hour: 12, minute: 0 };
  if (/^midnight$/i.test(whole))
    return { problem: 'Midnight at which end of the day? Leave it off: a day counts to its end.' };
  const hour = h24 === undefined ? (Number(h12) % 12) + (half?.toLowerCase() === 'pm' ? 12 : 0) : Number(h24);
  const minute = Number(m24 ?? m12 ?? 0);
  const valid = minute < 60 && (h24 === undefined ? Number(h12) >= 1 && Number(h12) <= 12 : hour < 24);
  return valid ? { hour, minute } : { problem: `“${whole}” is no time of day.` };
}

type DayParser = (words: string, today: LocalMoment) => DayResult | undefined;

/** The ways of naming a day, each of which knows its own or passes. */
const DAY_PARSERS: readonly DayParser[] = [
  todayOrTomorrow,
  isoDate,
  slashDate,
  weekday,
  monthEnd,
  dayOfMonth,
  ordinalDay,
  ambiguousDay,
];

function parseDate(words: string, today: LocalMoment): DayResult {
  for (const parser of DAY_PARSERS) {
    const found = parser(words, today);
    if (found) return found;
  }
  return {
    problem: `“${words}” is no day that is known here. Write “until Sunday”, “until the 20th” or “until 12 May”.`,
  };
}

function todayOrTomorrow(words: string, today: LocalMoment): DayResult | undefined {
  if (/^(today|tonight|this evening)$/.test(words)) return { date: today };
  return words === 'tomorrow' ? { date: addDays(today, 1) } : undefined;
}

function isoDate(words: string): DayResult | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(words);
  return parts ? validDate(Number(parts[1]), Number(parts[2]), Number(parts[3])) : undefined;
}

/** 5/20 can be one day alone; 5/6 is May in one country and June in another. */
function slashDate(words: string, today: LocalMoment): DayResult | undefined {
  const parts = /^(\d{1,2})\/(\d{1,2})(?:\/(\d{4}))?$/.exec(words);
  if (!parts) return undefined;
  const [a, b] = [Number(parts[1]), Number(parts[2])];
  if (a <= 12 && b <= 12 && a !== b)
    return {
      problem: `“${words}” is ${b} ${MONTHS[a - 1] ?? a} to some and ${a} ${MONTHS[b - 1] ?? b} to others. Write the month as a word.`,
    };
  const [day, month] = a > 12 ? [a, b] : [b, a];
  return dateInYear(day, month, parts[3], today);
}

function weekday(words: string, today: LocalMoment): DayResult | undefined {
  const parts = /^(?:(next|this|coming)\s+)?([a-z]+)$/.exec(words);
  const name = parts?.[2] ?? '';
  const at = WEEKDAYS.findIndex((day) => {
    const full = day.toLowerCase();
    return name === full || (name.length >= 3 && full.startsWith(name));
  });
  if (at < 0) return undefined;
  const ahead = (at + 1 - weekdayOf(today) + 7) % 7;
  const [coming, after] = [addDays(today, ahead), addDays(today, ahead + 7)];
  const twice = `${formatDayMonth(coming)} or ${formatDayMonth(after)}`;
  if (ahead === 0) return { problem: `Today is ${WEEKDAYS[at]}: ${twice}? Write “until today” or the date.` };
  if (parts?.[1] === 'next')
    return { problem: `“Next ${WEEKDAYS[at]}” is ${twice}, by who says it. Write the date.` };
  return { date: coming };
}

function monthEnd(words: string, today: LocalMoment): DayResult | undefined {
  if (/^(the )?end of (the |this )?month$/.test(words))
    return { date: { ...today, day: daysInMonth(today.year, today.month) } };
  const named = /^(?:the )?end of ([a-z]+)(?: (\d{4}))?$/.exec(words);
  const month = findMonth(named?.[1]);
  if (!month) return undefined;
  const year = named?.[2] === undefined ? undefined : Number(named[2]);
  const days = daysInMonth(year ?? (month < today.month ? today.year + 1 : today.year), month);
  return dateInYear(days, month, named?.[2], today);
}

function dayOfMonth(words: string, today: LocalMoment): DayResult | undefined {
  const first = /^(?:the )?(\d{1,2})(?:st|nd|rd|th)?(?: of)? ([a-z]+)(?: (\d{4}))?$/.exec(words);
  const second = /^([a-z]+) (?:the )?(\d{1,2})(?:st|nd|rd|th)?(?: (\d{4}))?$/.exec(words);
  const month = findMonth(first?.[2] ?? second?.[1]);
  const day = Number(first?.[1] ?? second?.[2]);
  return month ? dateInYear(day, month, first?.[3] ?? second?.[3], today) : undefined;
}

/** "The 20th": of this month where it is still to come, else of the next. */
function ordinalDay(words: string, today: LocalMoment): DayResult | undefined {
  const parts = /^(?:the )?(\d{1,2})(?:st|nd|rd|th)$/.exec(words);
  if (!parts) return undefined;
  const day = Number(parts[1]);
  if (day === today.day) return { problem: 'That is today. Write “until today”, or the month with it.' };
  const ahead = day > today.day ? 0 : 1;
  const months = today.year * 12 + today.month - 1 + ahead;
  const [year, month] = [Math.floor(months / 12), (months % 12) + 1];
  return validDate(year, month, day);
}

/** What names a stretch and not a day. */
function ambiguousDay(words: string): DayResult | undefined {
  const month = findMonth(/^(?:next |early |mid |late )?([a-z]+)$/.exec(words)?.[1]);
  if (month)
    return {
      problem: `The beginning of ${MONTHS[month - 1]} or its end? Write the day, such as “until 12 ${MONTHS[month - 1]}”.`,
    };
  if (/\b(spring|summer|fall|autumn|winter|season)\b/.test(words))
    return { problem: 'A season has no certain last day. Write a date, such as “until 15 April”.' };
  if (/\b(week|weekend)\b/.test(words))
    return { problem: 'Which day of the week? Write it, such as “until Sunday”.' };
  if (/^\d{1,2}$/.test(words))
    return { problem: `The ${words} of which month, or ${words} o’clock? Write “the 20th” or “5 pm”.` };
  return undefined;
}

/** A day of a month: with a year as written, else the next one that comes. */
function dateInYear(day: number, month: number, year: string | undefined, today: LocalMoment): DayResult {
  if (year !== undefined) return validDate(Number(year), month, day);
  const past = month < today.month || (month === today.month && day < today.day);
  const found = validDate(past ? today.year + 1 : today.year, month, day);
  if (!past || 'problem' in found) return found;
  const ago = dayNumber(today) - dayNumber({ ...today, month, day });
  if (ago > JUST_PAST_DAYS) return found;
  return {
    problem: `${day} ${MONTHS[month - 1]} was ${ago === 1 ? 'yesterday' : `${ago} days ago`}. Write the year if next year’s is meant.`,
  };
}

function validDate(year: number, month: number, day: number): DayResult {
  if (month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month))
    return { date: { year, month, day, hour: 0, minute: 0 } };
  return { problem: `${MONTHS[month - 1] ?? `Month ${month}`} ${year} has no day ${day}.` };
}

function findMonth(name: string | undefined): number | undefined {
  if (name === undefined || name.length < 3) return undefined;
  const at = MONTHS.findIndex((month) => {
    const full = month.toLowerCase();
    return name === full || (full.startsWith(name) && name.length <= 4);
  });
  return at < 0 ? undefined : at + 1;
}

function dayNumber({ year, month, day }: LocalMoment): number {
  return Date.UTC(year, month - 1, day) / DAY_MS;
}

function formatDayMonth({ day, month }: LocalMoment): string {
  return `${day} ${MONTHS[month - 1]}`;
}
