/**
 * What is due as a calendar that phones and offices subscribe to (RFC 5545; name and refresh after
 * RFC 7986): one all-day event for each check, under an id that stays the same for ever, so that a
 * check that was done moves to its next day and leaves nothing behind. An overdue check lasts from
 * its day through today, for a day in the past would be seen by nobody. Nothing in it is fetched
 * from anywhere, and it holds no attendees, alarms or attachments.
 */
import { icalDate, icalLine, icalDateTime, icalText } from './ical-lines.ts';
import { addDays } from './dates.ts';

export interface CalendarEvent {
  /** Unique for ever and everywhere. */
  uid: string;
  /** ISO dates, the last one included. */
  firstDate: string;
  lastDate: string;
  title: string;
  text: string;
  category: string;
  location?: string;
  /** When what it says changed last. */
  changedMs: number;
}

/**
 * Phones look again this often where they keep to it; a check is moved when it was done, and nobody
 * waits for that.
 */
const REFRESH_INTERVAL = 'PT6H';

/** The whole object. `name` is what a phone calls the calendar. */
export function calendarFeed(name: string, events: readonly CalendarEvent[]): string {
  return [
    icalLine('BEGIN', 'VCALENDAR'),
    icalLine('VERSION', '2.0'),
    icalLine('PRODID', '-//Stillwell//Checks of wells//EN'),
    icalLine('CALSCALE', 'GREGORIAN'),
    icalLine('NAME', icalText(name)),
    // Older than NAME, in no standard, and what many phones read.
    icalLine('X-WR-CALNAME', icalText(name)),
    icalLine('REFRESH-INTERVAL;VALUE=DURATION', REFRESH_INTERVAL),
    ...events.map(eventLines),
    icalLine('END', 'VCALENDAR'),
  ].join('');
}

/**
 * Without METHOD, DTSTAMP is when the information was last revised (3.8.7.2): so a feed in which
 * nothing changed is the same bytes. DTEND of an all-day event is the day after its last (3.6.1).
 * It takes nobody's time: TRANSPARENT.
 */
function eventLines(event: CalendarEvent): string {
  return [
    icalLine('BEGIN', 'VEVENT'),
    icalLine('UID', icalText(event.uid)),
    icalLine('DTSTAMP', icalDateTime(event.changedMs)),
    icalLine('DTSTART;VALUE=DATE', icalDate(event.firstDate)),
    icalLine('DTEND;VALUE=DATE', icalDate(addDays(event.lastDate, 1))),
    icalLine('SUMMARY', icalText(event.title)),
    icalLine('DESCRIPTION', icalText(event.text)),
    icalLine('CATEGORIES', icalText(event.category)),
    ...(event.location === undefined ? [] : [icalLine('LOCATION', icalText(event.location))]),
    icalLine('TRANSP', 'TRANSPARENT'),
    icalLine('END', 'VEVENT'),
  ].join('');
}
