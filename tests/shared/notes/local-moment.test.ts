/**
 * Reference: the Temporal polyfill, which carries the rules of the proposal ("compatible"
 * disambiguation).
 */
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { localToUtcMs, localMoment, weekdayOf } from '../../../shared/notes/local-moment.ts';

const ZONES = [
  'America/Denver',
  'UTC',
  'Europe/Lisbon',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'America/St_Johns',
  'Pacific/Apia',
  'America/Sao_Paulo',
];

test('a wall’s date and time is the instant that Temporal finds, in any zone', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ZONES),
      fc.integer({ min: Date.UTC(2018, 0, 1), max: Date.UTC(2031, 0, 1) }),
      (timeZone, atMs) => {
        const minute = Math.floor(atMs / 60_000) * 60_000;
        const moment = localMoment(minute, timeZone);
        const zoned = Temporal.PlainDateTime.from(moment).toZonedDateTime(timeZone);
        expect(localToUtcMs(moment, timeZone)).toBe(zoned.epochMilliseconds);
        expect(weekdayOf(moment)).toBe(zoned.dayOfWeek);
      },
    ),
    { seed: 5, numRuns: 600 },
  );
});

test.each([
  [
    'midnight where the clock skips it',
    'America/Sao_Paulo',
    { year: 2018, month: 11, day: 4, hour: 0, minute: 0 },
  ],
  [
    'half past two of the night that has none',
    'America/Denver',
    { year: 2026, month: 3, day: 8, hour: 2, minute: 30 },
  ],
  [
    'half past one of the night that has two',
    'America/Denver',
    { year: 2026, month: 11, day: 1, hour: 1, minute: 30 },
  ],
  ['a change of half an hour', 'Australia/Lord_Howe', { year: 2026, month: 10, day: 4, hour: 2, minute: 15 }],
])('%s', (_, timeZone, moment) => {
  const zoned = Temporal.PlainDateTime.from(moment).toZonedDateTime(timeZone);
  expect(localToUtcMs(moment, timeZone)).toBe(zoned.epochMilliseconds);
});
