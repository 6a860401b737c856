/** RFC 3339: its own examples (section 5.8, from memory) and what it does not allow. */
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
    ['2026-03-12T10:00:00.0009Z', Date.UTC(2026, 2, 12, 10, 0, 0, 1)],
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

test('isIsoDate knows the calendar', () => {
  expect(
    ['2019-05-14', '2024-02-29', '2023-02-29', '2019-5-14', 'today', '2019-05-14T00:00:00Z'].map(isIsoDate),
  ).toEqual([true, true, false, false, false, false]);
});
