import { describe, expect, it } from 'vitest';
import { localDayAt } from '../../../src/core/well/local-day.ts';

describe('localDayAt', () => {
  // Rules of the IANA time zone database; 2026 dates of the United States.
  it.each([
    {
      name: 'an ordinary day',
      at: '2026-03-02T12:00:00Z',
      zone: 'America/Denver',
      date: '2026-03-02',
      hours: 24,
    },
    {
      name: 'the day clocks go forward',
      at: '2026-03-08T12:00:00Z',
      zone: 'America/Denver',
      date: '2026-03-08',
      hours: 23,
    },
    {
      name: 'the day clocks go back',
      at: '2026-11-01T12:00:00Z',
      zone: 'America/Denver',
      date: '2026-11-01',
      hours: 25,
    },
    {
      name: 'a day that begins at one, midnight being skipped',
      at: '2026-03-29T12:00:00Z',
      zone: 'Asia/Beirut',
      date: '2026-03-29',
      hours: 23,
    },
    {
      name: 'UTC where the card has no zone',
      at: '2026-03-02T00:00:00Z',
      zone: 'UTC',
      date: '2026-03-02',
      hours: 24,
    },
  ])('$name', ({ at, zone, date, hours }) => {
    const day = localDayAt(Date.parse(at), zone);
    expect(day.date).toBe(date);
    expect((day.endMs - day.startMs) / 3_600_000).toBe(hours);
    expect(localDayAt(day.endMs, zone).startMs).toBe(day.endMs);
    expect(localDayAt(day.endMs - 1, zone)).toEqual(day);
  });

  it('refuses a zone that does not exist', () => {
    expect(() => localDayAt(0, 'Mars/Olympus')).toThrow(RangeError);
  });
});
