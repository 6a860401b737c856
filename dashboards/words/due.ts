/** When a check is due, in words: a date, and how far away it is. */
import type { CheckRowAnswer, DueRowAnswer, TargetAnswer } from '../../shared/api/due.ts';
import { dateWords } from '../../shared/text/en/time-words.ts';
import { formatQuantity, type UnitSystem } from '../../shared/quantity/format-quantity.ts';

type Dated = Pick<DueRowAnswer, 'dueDate' | 'lateDays' | 'state' | 'proposedDate'>;

/** An ISO date as people say it: "31 May", with the year where it is another. */
export function dayWords(on: string, nowMs: number): string {
  return dateWords(Date.parse(`${on}T12:00:00Z`), 'UTC', nowMs);
}

/** Dates inside a sentence of the server, as people say them. */
export function datesInWords(text: string, nowMs: number): string {
  return text.replaceAll(/\b\d{4}-\d\d-\d\d\b/g, (on) => dayWords(on, nowMs));
}

/**
 * "Overdue since 3 May, 12 days", "Due today", "Due 31 May, in 6 days", "No date known. Proposed:
 * 12 January".
 */
export function dueWords({ dueDate, lateDays = 0, state, proposedDate }: Dated, nowMs: number): string {
  if (dueDate === undefined)
    return proposedDate === undefined
      ? UNDATED_WORDS[state]
      : `${UNDATED_WORDS['not-recorded']}. Proposed: ${dayWords(proposedDate, nowMs)}`;
  const day = dayWords(dueDate, nowMs);
  if (lateDays > 0) return `Overdue since ${day}, ${days(lateDays)}`;
  if (lateDays === 0) return 'Due today';
  return `Due ${day}, in ${days(-lateDays)}`;
}

const UNDATED_WORDS: Record<DueRowAnswer['state'], string> = {
  off: 'Put off',
  'not-needed': 'Not needed here',
  'not-recorded': 'No date known',
  'on-hold': 'Waits until the well is back',
  later: 'Done',
  due: 'Due',
  overdue: 'Overdue',
};

function days(n: number): string {
  if (n >= 730) return `${Math.round(n / 365)} years`;
  if (n >= 60) return `${Math.round(n / 30.4)} months`;
  return n === 1 ? '1 day' : `${n} days`;
}

export function roundWords(round: CheckRowAnswer['recurrence'], nowMs: number): string {
  if (!round) return 'Once.';
  if (round.is === 'yearly')
    return `Each year on ${dayWords(`${new Date(nowMs).getUTCFullYear()}-${round.day}`, nowMs)}.`;
  if (round.days === 365) return 'Each year.';
  return round.days === 182 ? 'Twice a year.' : `Every ${days(round.days)}.`;
}

/** "38 psi, 2 psi under the measured cut-in of 40 psi." */
export function targetWords(target: TargetAnswer | undefined, units: UnitSystem): string | undefined {
  if (!target) return undefined;
  if (target.kpa === undefined || target.cutInKpa === undefined) return target.reason;
  const under = units === 'us' ? '2 psi' : '14 kPa';
  const format = (kpa: number): string => formatQuantity(kpa, 'pressure', units);
  return `${format(target.kpa)}, ${under} under the ${target.from === 'measured' ? 'measured cut-in' : 'cut-in on the card'} of ${format(target.cutInKpa)}.`;
}

/** "Laid up until 15 April", "Out of service since 3 May". */
export function downtimeWords({ onHold }: Pick<DueRowAnswer, 'onHold'>, nowMs: number): string {
  if (!onHold) return '';
  const what = onHold.is === 'laid-up' ? 'Laid up' : 'Out of service';
  return onHold.untilDate === undefined
    ? `${what} since ${dayWords(onHold.sinceDate, nowMs)}`
    : `${what} until ${dayWords(onHold.untilDate, nowMs)}`;
}
