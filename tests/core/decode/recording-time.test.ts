import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseRecordingTime, parseIsoTimeBytes } from '../../../src/core/decode/recording-time.ts';

describe('parseTime', () => {
  test.each([
    ['2026-03-12T10:00:00Z', '2026-03-12T10:00:00.000Z'],
    ['2026-03-12T10:00:00.2Z', '2026-03-12T10:00:00.200Z'],
    ['2026-03-12T10:00:00.123999999Z', '2026-03-12T10:00:00.123Z'],
    ['2026-03-12t10:00:00z', '2026-03-12T10:00:00.000Z'],
    ['2026-03-12 10:00:00+00:00', '2026-03-12T10:00:00.000Z'],
    ['2026-03-12T10:00:00-07:00', '2026-03-12T17:00:00.000Z'],
    ['2026-03-12T10:00:00.5+0530', '2026-03-12T04:30:00.500Z'],
    // The Z does not count beside an offset.
    ['2026-03-12T10:00:00.123456Z-0700', '2026-03-12T17:00:00.123Z'],
    ['2026-03-12T10:00:00Z+0100', '2026-03-12T09:00:00.000Z'],
    ['2024-02-29T23:59:60Z', '2024-02-29T23:59:59.000Z'],
  ])('%s', (text, utc) => {
    expect(new Date(parseRecordingTime(text) ?? Number.NaN).toISOString()).toBe(utc);
  });

  test.each([
    '',
    '2026-03-12',
    '2026-03-12T10:00:00',
    '2026-13-12T10:00:00Z',
    '2026-02-29T10:00:00Z',
    '2026-00-12T10:00:00Z',
    '2026-03-00T10:00:00Z',
    '2026-03-12T24:00:00Z',
    '2026-03-12T10:60:00Z',
    '2026-03-12T10:00:61Z',
    '2026-03-12T10:00:00.Z',
    ' 2026-03-12T10:00:00Z',
    '1773309600',
  ])('%s is no time', (text) => {
    expect(parseRecordingTime(text)).toBeUndefined();
  });
});

describe('usualTime', () => {
  const quoted = (text: string): Uint8Array => new TextEncoder().encode(`"${text}"`);

  test('is what parseTime says of every time in the usual form', () => {
    const dates = fc.date({ min: new Date('0100-01-01'), max: new Date('9999-12-31'), noInvalidDate: true });
    fc.assert(
      fc.property(dates, (date) => {
        expect(parseIsoTimeBytes(quoted(date.toISOString()))).toBe(date.getTime());
      }),
    );
  });

  test('never differs from parseTime where one character of such a time is another', () => {
    const at = fc.integer({ min: 0, max: 23 });
    const letter = fc.constantFrom(...Array.from('0123456789TtZ-:. +"'));
    fc.assert(
      fc.property(at, letter, (place, other) => {
        const usual = '2026-02-28T23:59:58.999Z';
        const text = usual.slice(0, place) + other + usual.slice(place + 1);
        const found = parseIsoTimeBytes(quoted(text));
        if (found !== undefined) expect(found).toBe(parseRecordingTime(text));
      }),
    );
  });

  test.each(['2026-02-29T10:00:00.000Z', '2026-13-12T10:00:00.000Z', '2026-03-12T24:00:00.000Z'])(
    '%s is none, whatever was read before',
    (text) => {
      expect(parseIsoTimeBytes(quoted('2026-02-28T10:00:00.000Z'))).toBeDefined();
      expect(parseIsoTimeBytes(quoted(text))).toBeUndefined();
    },
  );
});
