/**
 * Which day somebody names by "Sunday", "the 20th", "12 May", "the end of the month", and the time
 * of day with it, seen from today.
 */
import { DAY_MS } from '../units/duration.ts';
import { daysInMonth, addDays, weekdayOf, type LocalMoment } from './local-moment.ts';
import { texts } from './texts.ts';

export interface ParsedDay {
  date: LocalMoment;
  time?: { hour: number; minute: number };
}
type DayResult = ParsedDay | { problem: string };

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
  if (/^midnight$/i.test(whole)) return { problem: texts().midnight };
  const hour = h24 === undefined ? (Number(h12) % 12) + (half?.toLowerCase() === 'pm' ? 12 : 0) : Number(h24);
  const minute = Number(m24 ?? m12 ?? 0);
  const valid = minute < 60 && (h24 === undefined ? Number(h12) >= 1 && Number(h12) <= 12 : hour < 24);
  return valid ? { hour, minute } : { problem: texts().noTimeOfDay(whole) };
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
  return { problem: texts().unknownDay(words) };
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
      problem: texts().twoMonths({ words, one: dayMonthText(b, a), other: dayMonthText(a, b) }),
    };
  const [day, month] = a > 12 ? [a, b] : [b, a];
  return dateInYear(day, month, parts[3], today);
}

function weekday(words: string, today: LocalMoment): DayResult | undefined {
  const parts = /^(?:(next|this|coming)\s+)?([a-z]+)$/.exec(words);
  const name = parts?.[2] ?? '';
  const { weekdays, either, todayIs, next } = texts();
  const at = weekdays.findIndex((day) => {
    const full = day.toLowerCase();
    return name === full || (name.length >= 3 && full.startsWith(name));
  });
  if (at < 0) return undefined;
  const ahead = (at + 1 - weekdayOf(today) + 7) % 7;
  const [coming, after] = [addDays(today, ahead), addDays(today, ahead + 7)];
  const twice = either({
    one: dayMonthText(coming.day, coming.month),
    other: dayMonthText(after.day, after.month),
  });
  const named = weekdays[at] ?? name;
  if (ahead === 0) return { problem: todayIs({ weekday: named, twice }) };
  if (parts?.[1] === 'next') return { problem: next({ weekday: named, twice }) };
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
  if (day === today.day) return { problem: texts().thatIsToday };
  const ahead = day > today.day ? 0 : 1;
  const months = today.year * 12 + today.month - 1 + ahead;
  const [year, month] = [Math.floor(months / 12), (months % 12) + 1];
  return validDate(year, month, day);
}

/** What names a stretch and not a day. */
function ambiguousDay(words: string): DayResult | undefined {
  const month = findMonth(/^(?:next |early |mid |late )?([a-z]+)$/.exec(words)?.[1]);
  if (month) return { problem: texts().whichEnd(monthText(month)) };
  if (/\b(spring|summer|fall|autumn|winter|season)\b/.test(words)) return { problem: texts().season };
  if (/\b(week|weekend)\b/.test(words)) return { problem: texts().whichDay };
  if (/^\d{1,2}$/.test(words)) return { problem: texts().dayOrHour(words) };
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
  return { problem: texts().justPast({ dayMonth: dayMonthText(day, month), days: ago }) };
}

function validDate(year: number, month: number, day: number): DayResult {
  if (month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month))
    return { date: { year, month, day, hour: 0, minute: 0 } };
  return { problem: texts().noSuchDay({ month: monthText(month), year, day }) };
}

function findMonth(name: string | undefined): number | undefined {
  if (name === undefined || name.length < 3) return undefined;
  const at = texts().months.findIndex((month) => {
    const full = month.toLowerCase();
    return name === full || (full.startsWith(name) && name.length <= 4);
  });
  return at < 0 ? undefined : at + 1;
}

function dayNumber({ year, month, day }: LocalMoment): number {
  return Date.UTC(year, month - 1, day) / DAY_MS;
}

function dayMonthText(day: number, month: number): string {
  return texts().dayMonth({ day, month: monthText(month) });
}

function monthText(month: number): string {
  const { months, monthOfNumber } = texts();
  return months[month - 1] ?? monthOfNumber(month);
}
