/**
 * RFC 3339: its own examples (section 5.8, from memory), what it does not allow, and Temporal as
 * the reference for the rest.
 */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { isIsoDate, parseRfc3339 } from '../../../src/core/domain/rfc3339.ts';

describe('parseRfc3339 reads', () => {
  test.each<[string, number]>([
    ['1985-04-12T23:20:50.52Z', Date.UTC(1985, 3, 12, 23, 20, 50, 520)],
    ['1996-12-19T16:39:57-08:00', Date.UTC(1996, 11, 20, 0, 39, 57)],
    ['1937-01-01T12:00:27.87+00:20', Date.UTC(1937, 0, 1, 11, 40, 27, 870)],
    // The leap second of 1990, as the second before it.
    ['1990-12-31T23:59:60Z', Date.UTC(1990, 11, 31, 23, 59, 59)],
    ['2026-03-12t10:00:00z', Date.UTC(2026, 2, 12, 10)],
    ['2026-03-12T10:00:00.0019Z', Date.UTC(2026, 2, 12, 10, 0, 0, 1)],
    ['0050-02-28T10:00:00Z', Date.parse('0050-02-28T10:00:00Z')],
  ])('%s', (text, ms) => {
    expect(parseRfc3339(text)).toBe(ms);
  });
});

test.each([
  '2026-03-12',
  '2026-03-12T10:00Z',
  '2026-03-12T10:00:00',
  '2026-03-12T10:00:00Z-0700',
  '2026-03-12T10:00:00-0700',
  '2026-02-30T10:00:00Z',
  '2026-13-01T10:00:00Z',
  '2026-03-12T24:00:00Z',
  '2026-03-12T10:60:00Z',
  '2026-03-12T10:00:00+24:00',
  ' 2026-03-12T10:00:00Z',
  '',
])('parseRfc3339 refuses %j', (text) => {
  expect(parseRfc3339(text)).toBeUndefined();
});

const dateTime = fc
  .tuple(
    fc.date({ min: new Date('0001-01-01'), max: new Date('9999-12-31'), noInvalidDate: true }),
    fc.constantFrom('', '.5', '.25', '.999999999'),
    fc.constantFrom('Z', 'z', '+00:00', '-08:00', '+05:45', '+23:59'),
  )
  .map(([date, fraction, zone]) => date.toISOString().slice(0, 19) + fraction + zone);

test('parseRfc3339 reads what Temporal reads', () => {
  fc.assert(
    fc.property(dateTime, (text) => {
      expect(parseRfc3339(text)).toBe(Temporal.Instant.from(text).epochMilliseconds);
    }),
  );
});

test('parseRfc3339 reads as Temporal does, or refuses, where one character of a time is another', () => {
  const letter = fc.constantFrom(...Array.from('0123456789TtZ-:. +,'));
  fc.assert(
    fc.property(dateTime, fc.nat(24), letter, (time, place, other) => {
      const text = time.slice(0, place) + other + time.slice(place + 1);
      const ms = parseRfc3339(text);
      if (ms !== undefined) expect(ms).toBe(Temporal.Instant.from(text).epochMilliseconds);
    }),
    { numRuns: 1000 },
  );
});

test('isIsoDate knows the calendar', () => {
  expect(
    ['2019-05-14', '2024-02-29', '2023-02-29', '2019-5-14', 'today', '2019-05-14T00:00:00Z'].map(isIsoDate),
  ).toEqual([true, true, false, false, false, false]);
});
