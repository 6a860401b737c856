/**
 * What is due as a calendar that phones and offices subscribe to (RFC 5545; name and refresh after RFC 7986): one all-day event for each
 * check, under an id that stays the same for ever, so that a check that was done moves to its next day and leaves nothing behind.
 * An overdue check lasts from its day through today, for a day in the past would be seen by nobody. Nothing in it is fetched
 * from anywhere, and it holds no attendees, alarms or attachments.
 */
import { calendarDate, calendarLine, calendarMoment, calendarText } from './calendar-lines.ts';
import { addDays } from './days.ts';

export interface CalendarEvent {
  /** Unique for ever and everywhere. */
  uid: string;
  /** ISO dates, the last one included. */
  firstOn: string;
  lastOn: string;
  title: string;
  text: string;
  category: string;
  where?: string;
  /** When what it says changed last. */
  changedMs: number;
}

/** Phones look again this often where they keep to it; a check is moved when it was done, and nobody waits for that. */
const LOOK_AGAIN = 'PT6H';

/** The whole object. `name` is what a phone calls the calendar. */
export function calendarFeed(name: string, events: readonly CalendarEvent[]): string {
  return [
    calendarLine('BEGIN', 'VCALENDAR'),
    calendarLine('VERSION', '2.0'),
    calendarLine('PRODID', '-//Stillwell//Checks of wells//EN'),
    calendarLine('CALSCALE', 'GREGORIAN'),
    calendarLine('NAME', calendarText(name)),
    // Older than NAME, in no standard, and what many phones read.
    calendarLine('X-WR-CALNAME', calendarText(name)),
    calendarLine('REFRESH-INTERVAL;VALUE=DURATION', LOOK_AGAIN),
    ...events.map(eventLines),
    calendarLine('END', 'VCALENDAR'),
  ].join('');
}

/**
 * Without METHOD, DTSTAMP is when the information was last revised (3.8.7.2): so a feed in which nothing changed is the same bytes.
 * DTEND of an all-day event is the day after its last (3.6.1). It takes nobody's time: TRANSPARENT.
 */
function eventLines(event: CalendarEvent): string {
  return [
    calendarLine('BEGIN', 'VEVENT'),
    calendarLine('UID', calendarText(event.uid)),
    calendarLine('DTSTAMP', calendarMoment(event.changedMs)),
    calendarLine('DTSTART;VALUE=DATE', calendarDate(event.firstOn)),
    calendarLine('DTEND;VALUE=DATE', calendarDate(addDays(event.lastOn, 1))),
    calendarLine('SUMMARY', calendarText(event.title)),
    calendarLine('DESCRIPTION', calendarText(event.text)),
    calendarLine('CATEGORIES', calendarText(event.category)),
    ...(event.where === undefined ? [] : [calendarLine('LOCATION', calendarText(event.where))]),
    calendarLine('TRANSP', 'TRANSPARENT'),
    calendarLine('END', 'VEVENT'),
  ].join('');
}
