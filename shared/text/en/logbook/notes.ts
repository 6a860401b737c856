/**
 * Texts of notes of one line: names of months and days, by which an end is understood and shown,
 * and what is asked where it can mean two days or none. Beside them the rules of the day of an
 * entry.
 */
type Word = string | number;

const season = 'A season has no certain last day. Write a date, such as “until 15 April”.';

export const noteTexts = {
  /** From January, and from Monday. */
  months: [
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
  ] as readonly string[],
  weekdays: [
    'Monday',
    'Tuesday',
    'Wednesday',
    'Thursday',
    'Friday',
    'Saturday',
    'Sunday',
  ] as readonly string[],
  dayMonth: ({ day, month }: Record<'day' | 'month', Word>) => `${day} ${month}`,
  /** "the end of Sun 19 July". */
  endOf: (day: Word) => `the end of ${day}`,
  laidUp: 'laid up',
  moreUse: 'more use',
  entry: {
    mustBeADay: 'Must be a day of the calendar, such as 2026-05-31',
    mustNotLieAhead: 'Must not lie ahead: what is written down was done',
    mustNotLieBefore: (year: Word) => `Must not lie before ${year}`,
  },
  whatAndUntil: 'Write what it is and until when, such as “guests until Sunday”.',
  tooLong: (characters: Word) => `One line of at most ${characters} letters.`,
  endIsPast: 'That end is past already. When will it be over?',
  tooFarAhead: 'That is more than two years ahead. What lasts that long belongs on the card.',
  whatIsIt: 'And what is it? Write for example “guests until Sunday”.',
  season,
  noEnd: 'When is it over? Add “until Sunday”, “until 12 May” or “for 3 weeks”.',
  /** `unit` as it was typed. */
  howMany: (unit: Word) => `For how many ${unit}s? Write a number, such as “for 3 ${unit}s”.`,
  midnight: 'Midnight at which end of the day? Leave it off: a day counts to its end.',
  noTimeOfDay: (words: Word) => `“${words}” is no time of day.`,
  unknownDay: (words: Word) =>
    `“${words}” is no day that is known here. Write “until Sunday”, “until the 20th” or “until 12 May”.`,
  twoMonths: ({ words, one, other }: Record<'words' | 'one' | 'other', Word>) =>
    `“${words}” is ${one} to some and ${other} to others. Write the month as a word.`,
  either: ({ one, other }: Record<'one' | 'other', Word>) => `${one} or ${other}`,
  todayIs: ({ weekday, twice }: Record<'weekday' | 'twice', Word>) =>
    `Today is ${weekday}: ${twice}? Write “until today” or the date.`,
  next: ({ weekday, twice }: Record<'weekday' | 'twice', Word>) =>
    `“Next ${weekday}” is ${twice}, by who says it. Write the date.`,
  thatIsToday: 'That is today. Write “until today”, or the month with it.',
  whichEnd: (month: Word) =>
    `The beginning of ${month} or its end? Write the day, such as “until 12 ${month}”.`,
  whichDay: 'Which day of the week? Write it, such as “until Sunday”.',
  dayOrHour: (number: Word) =>
    `The ${number} of which month, or ${number} o’clock? Write “the 20th” or “5 pm”.`,
  justPast: ({ dayMonth, days }: { dayMonth: string; days: number }) =>
    `${dayMonth} was ${days === 1 ? 'yesterday' : `${days} days ago`}. Write the year if next year’s is meant.`,
  noSuchDay: ({ month, year, day }: Record<'month' | 'year' | 'day', Word>) =>
    `${month} ${year} has no day ${day}.`,
  monthOfNumber: (month: Word) => `Month ${month}`,
};
