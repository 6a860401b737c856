/**
 * A day proposed for what nobody wrote down of a well: one visit catches up on all of it. It lies a
 * week and more after the well was first heard of, and where there are many wells they are spread
 * over the working days of the weeks after that, each on a day of its own choice, so that a firm's
 * list of wells does not fall due on one morning. A proposal that passed comes again and is never
 * overdue.
 */
import { addDays, daysBetween } from './dates.ts';

export interface ProposedDateInput {
  well: string;
  /** ISO date on which the well was first heard of; absent where nothing tells. */
  firstDate?: string;
  today: string;
  /** How many wells there are. */
  wellCount: number;
}

const LEAD_DAYS = 7;
/** What one or two people see to beside their work (common practice, no source). */
const WELLS_PER_WEEK = 20;
const WORKING_DAYS = 5;
/** A proposal comes again after five weeks at the earliest. */
const MIN_REPEAT_WEEKS = 5;
const MAX_WEEKS = 32;
/** A Monday before any well here, for those of which nothing tells since when they are known. */
const DEFAULT_MONDAY = '2024-01-01';

/**
 * ISO date, today or later. The same for the same well as long as the number of wells is much the
 * same.
 */
export function proposedDate({ well, firstDate, today, wellCount }: ProposedDateInput): string {
  const weeks = weeksFor(wellCount);
  const slot = Math.floor(hashFraction(well) * weeks * WORKING_DAYS);
  const from = nextMonday(firstDate === undefined ? DEFAULT_MONDAY : addDays(firstDate, LEAD_DAYS));
  const on = addDays(from, Math.floor(slot / WORKING_DAYS) * 7 + (slot % WORKING_DAYS));
  const round = Math.max(weeks, MIN_REPEAT_WEEKS) * 7;
  const late = daysBetween(on, today);
  return late <= 0 ? on : addDays(on, Math.ceil(late / round) * round);
}

/** Doubled, so that one well more moves nothing but at a doubling. */
function weeksFor(wells: number): number {
  let weeks = 1;
  while (weeks < MAX_WEEKS && weeks * WELLS_PER_WEEK < wells) weeks *= 2;
  return weeks;
}

function nextMonday(on: string): string {
  const day = new Date(`${on}T00:00:00Z`).getUTCDay();
  return addDays(on, (8 - day) % 7);
}

/**
 * 0 up to 1 by the well's name: FNV-1a, 32 bits, with the mixing of MurmurHash3's end, since names
 * of a list differ in their last letter.
 */
function hashFraction(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
}
