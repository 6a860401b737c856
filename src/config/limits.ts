/**
 * What settings may hold, each with its arithmetic. A value outside is refused at start, never
 * clamped.
 */

/**
 * Late packs settle within 7 days (contract, section 4), so readings must outlive that: 8 days. A
 * century is for ever. Two channels at 1 Hz and 0.5 B a reading are 86 kB a well and day, 32 MB a
 * year.
 */
export const READINGS_DAYS = { min: 8, max: 36_525, default: 400 };

/**
 * A baseline looks back over a year; 40 cycles a day of 100 B are 1.5 MB a well and year, so ten
 * years are kept.
 */
export const CYCLES_DAYS = { min: 400, max: 36_525, default: 3653 };

/** Refused messages are for whoever builds a node: a month, at most a year. */
export const REFUSED_DAYS = { min: 1, max: 366, default: 30 };

/**
 * One false alarm in a thousand years is as good as no watch; ten a year and nobody looks any more.
 * 0.05 is one in 20 years.
 */
export const FALSE_ALARMS_PER_YEAR = { min: 0.001, max: 10, default: 0.05 };

/** People of one farm or firm; each alarm makes a notice for each of them. */
export const MAX_RECIPIENTS = 200;

/** A settings file larger than this is some other file. 200 recipients of 1 kB are 200 kB. */
export const MAX_FILE_BYTES = 1024 * 1024;

/** A password or key line; a longer file is not one. */
export const MAX_SECRET_BYTES = 4096;
