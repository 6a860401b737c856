// Read back by ical.js, a reader of RFC 5545 that knows nothing of our writing.
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { icalDate, icalLine, icalDateTime, icalText } from '../../../src/logbook/due/ical-lines.ts';
import { calendarFeed, type CalendarEvent } from '../../../src/logbook/due/calendar.ts';

const EVENT: CalendarEvent = {
  uid: 'precharge.orchard.a1.stillwell',
  firstDate: '2026-05-31',
  lastDate: '2026-05-31',
  title: 'Tank precharge: orchard',
  text: 'Each year.\nTarget 38 psi (262 kPa); pump off, and locked off.',
  category: 'orchard',
  changedMs: Date.UTC(2026, 4, 1, 8, 15, 30),
};

function events(feed: string): ICAL.Event[] {
  const whole = new ICAL.Component(ICAL.parse(feed));
  return whole.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

describe('calendarFeed', () => {
  test('is read back as it was meant: id, whole days, text with its commas and lines', () => {
    const [event] = events(calendarFeed('Wells', [EVENT]));
    expect(event?.uid).toBe(EVENT.uid);
    expect(event?.summary).toBe(EVENT.title);
    expect(event?.description).toBe(EVENT.text);
    expect(event?.startDate.isDate).toBe(true);
    expect(event?.startDate.toString()).toBe('2026-05-31');
    expect(event?.endDate.toString()).toBe('2026-06-01');
    expect(event?.component.getFirstPropertyValue('dtstamp')?.toString()).toBe('2026-05-01T08:15:30Z');
    expect(event?.component.getFirstPropertyValue('transp')).toBe('TRANSPARENT');
  });

  test('one that is overdue lasts through its last day', () => {
    const [event] = events(
      calendarFeed('Wells', [{ ...EVENT, firstDate: '2026-02-28', lastDate: '2026-03-02' }]),
    );
    expect(event?.startDate.toString()).toBe('2026-02-28');
    expect(event?.endDate.toString()).toBe('2026-03-03');
  });

  test('says what RFC 5545 asks of a calendar (3.6, 3.7), and no METHOD', () => {
    const whole = new ICAL.Component(ICAL.parse(calendarFeed('Wells', [])));
    expect(whole.getFirstPropertyValue('version')).toBe('2.0');
    expect(whole.getFirstPropertyValue('prodid')).toContain('Stillwell');
    expect(whole.getFirstPropertyValue('name')).toBe('Wells');
    expect(whole.hasProperty('method')).toBe(false);
  });

  test('whatever people write comes back, and no line is longer than 75 octets (3.1)', () => {
    const written = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 300 });
    fc.assert(
      fc.property(written, written, (title, text) => {
        const feed = calendarFeed('Wells', [{ ...EVENT, title, text, location: title }]);
        for (const line of feed.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(feed.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
        const [event] = events(feed);
        expect(event?.summary).toBe(plain(title));
        expect(event?.description).toBe(plain(text));
        expect(event?.location).toBe(plain(title));
      }),
      { numRuns: 300 },
    );
  });

  /** Control characters that text may not hold (3.3.11) are left out. */
  function plain(text: string): string {
    // oxlint-disable-next-line no-control-regex
    return text.replaceAll(/\r\n?/g, '\n').replaceAll(/[\u0000-\u0008\u000b-\u001f\u007f]/g, '');
  }
});

describe('calendarLine', () => {
  // RFC 5545, 3.1: folded lines begin with one space, which belongs to no value.
  test('folds between characters', () => {
    const folded = icalLine('SUMMARY', 'é'.repeat(80));
    const lines = folded.split('\r\n').slice(0, -1);
    expect(lines).toHaveLength(3);
    expect(lines.map((line) => Buffer.byteLength(line))).toEqual([74, 75, 21]);
    expect(lines.slice(1).every((line) => line.startsWith(' é'))).toBe(true);
  });

  test('leaves a line of 75 octets whole', () => {
    expect(icalLine('SUMMARY', 'x'.repeat(67))).toBe(`SUMMARY:${'x'.repeat(67)}\r\n`);
    expect(icalLine('SUMMARY', 'x'.repeat(68)).split('\r\n')).toHaveLength(3);
  });
});

describe('calendar values', () => {
  test.each([
    ['a;b,c\\d', 'a\\;b\\,c\\\\d'],
    ['two\nlines\r\nand three', 'two\\nlines\\nand three'],
    ['no\u0007bell', 'nobell'],
    ['a "quoted": colon stays', 'a "quoted": colon stays'],
  ])('%j', (text, escaped) => expect(icalText(text)).toBe(escaped));

  test('dates and moments', () => {
    expect(icalDate('2026-03-02')).toBe('20260302');
    expect(icalDateTime(Date.UTC(2026, 2, 2, 10, 15, 0, 999))).toBe('20260302T101500Z');
  });
});
