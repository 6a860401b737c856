/** What settings may hold, each with its arithmetic. A value outside is refused at start, never clamped. */

/** TCP ports; 0 asks the system for any free one. */
export const PORTS = { least: 0, most: 65_535 };

/**
 * Late packs settle within 7 days (contract, section 4), so readings must outlive that: 8 days. A century is for ever. Two channels
 * at 1 Hz and 0.5 B a reading are 86 kB a well and day, 32 MB a year.
 */
export const READINGS_DAYS = { least: 8, most: 36_525, usual: 400 };

/** A baseline looks back over a year; 40 cycles a day of 100 B are 1.5 MB a well and year, so ten years are kept. */
export const CYCLES_DAYS = { least: 400, most: 36_525, usual: 3653 };

/** Refused messages are for whoever builds a node: a month, at most a year. */
export const REFUSED_DAYS = { least: 1, most: 366, usual: 30 };

/** One false alarm in a thousand years is as good as no watch; ten a year and nobody looks any more. 0.05 is one in 20 years. */
export const FALSE_ALARMS_PER_YEAR = { least: 0.001, most: 10, usual: 0.05 };

/** People of one farm or firm; each alarm makes a notice for each of them. */
export const MOST_RECIPIENTS = 200;

/** Mail addresses of one recipient, arguments of one command. */
export const MOST_PARTS = 20;

/** Longest path, URL or address. */
export const LONGEST_TEXT = 1000;

/** A settings file larger than this is some other file. 200 recipients of 1 kB are 200 kB. */
export const MOST_FILE_BYTES = 1024 * 1024;

/** A password or key line; a longer file is not one. */
export const MOST_SECRET_BYTES = 4096;
