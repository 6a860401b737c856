/**
 * A day proposed for what nobody wrote down of a well: one visit catches up on all of it. It lies a week and more after the well was first
 * heard of, and where there are many wells they are spread over the working days of the weeks after that, each on a day of its own choice,
 * so that a firm's list of wells does not fall due on one morning. A proposal that passed comes again and is never overdue.
 */
import { addDays, daysBetween } from './days.ts';

export interface ProposedFor {
  well: string;
  /** ISO date on which the well was first heard of; absent where nothing tells. */
  firstOn?: string;
  today: string;
  /** How many wells there are. */
  wells: number;
}

const AFTER_DAYS = 7;
/** What one or two people see to beside their work (common practice, no source). */
const WELLS_A_WEEK = 20;
const WORKING_DAYS = 5;
/** A proposal comes again after five weeks at the earliest. */
const AGAIN_WEEKS = 5;
const MOST_WEEKS = 32;
/** A Monday before any well here, for those of which nothing tells since when they are known. */
const SOME_MONDAY = '2024-01-01';

/** ISO date, today or later. The same for the same well as long as the number of wells is much the same. */
export function proposedDay({ well, firstOn, today, wells }: ProposedFor): string {
  const weeks = weeksFor(wells);
  const slot = Math.floor(shareOf(well) * weeks * WORKING_DAYS);
  const from = mondayFrom(firstOn === undefined ? SOME_MONDAY : addDays(firstOn, AFTER_DAYS));
  const on = addDays(from, Math.floor(slot / WORKING_DAYS) * 7 + (slot % WORKING_DAYS));
  const round = Math.max(weeks, AGAIN_WEEKS) * 7;
  const late = daysBetween(on, today);
  return late <= 0 ? on : addDays(on, Math.ceil(late / round) * round);
}

/** Doubled, so that one well more moves nothing but at a doubling. */
function weeksFor(wells: number): number {
  let weeks = 1;
  while (weeks < MOST_WEEKS && weeks * WELLS_A_WEEK < wells) weeks *= 2;
  return weeks;
}

function mondayFrom(on: string): string {
  const day = new Date(`${on}T00:00:00Z`).getUTCDay();
  return addDays(on, (8 - day) % 7);
}

/** 0 up to 1 by the well's name: FNV-1a, 32 bits, with the mixing of MurmurHash3's end, since names of a list differ in their last letter. */
function shareOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
}
