/**
 * Local days of the site's time zone, with those of 23 and 25 hours as they are. A day begins at
 * the first instant of its date, which is not midnight where the clock skips it.
 */
import { Temporal } from 'temporal-polyfill';

export interface LocalDay {
  /** ISO date. */
  date: string;
  startMs: number;
  /** The start of the next day. */
  endMs: number;
}

/** When this date ends in this time zone. */
export function endOfDateMs(date: string, timeZone: string): number {
  return Temporal.PlainDate.from(date).add({ days: 1 }).toZonedDateTime({ timeZone }).epochMilliseconds;
}

/** The local day that holds this instant. Throws RangeError for a time zone that does not exist. */
export function localDayAt(tMs: number, timeZone: string): LocalDay {
  const start = Temporal.Instant.fromEpochMilliseconds(Math.floor(tMs))
    .toZonedDateTimeISO(timeZone)
    .startOfDay();
  const end = start.toPlainDate().add({ days: 1 }).toZonedDateTime({ timeZone });
  return {
    date: start.toPlainDate().toString(),
    startMs: start.epochMilliseconds,
    endMs: end.epochMilliseconds,
  };
}
