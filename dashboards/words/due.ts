/** When a check is due, in words: a date, and how far away it is. */
import type { CheckRowAnswer, DueRowAnswer, TargetAnswer } from '../../shared/api/due.ts';
import { dateWords } from '../../shared/api/time-words.ts';
import { printQuantity, type UnitSystem } from '../../shared/quantity/print-quantity.ts';

type Dated = Pick<DueRowAnswer, 'on' | 'lateDays' | 'state' | 'proposedOn'>;

/** An ISO date as people say it: "31 May", with the year where it is another. */
export function dayWords(on: string, nowMs: number): string {
  return dateWords(Date.parse(`${on}T12:00:00Z`), 'UTC', nowMs);
}

/** Dates inside a sentence of the server, as people say them. */
export function datesInWords(text: string, nowMs: number): string {
  return text.replaceAll(/\b\d{4}-\d\d-\d\d\b/g, (on) => dayWords(on, nowMs));
}

/** "Overdue since 3 May, 12 days", "Due today", "Due 31 May, in 6 days", "No date known. Proposed: 12 January". */
export function dueWords({ on, lateDays = 0, state, proposedOn }: Dated, nowMs: number): string {
  if (on === undefined)
    return proposedOn === undefined
      ? UNDATED[state]
      : `${UNDATED.unwritten}. Proposed: ${dayWords(proposedOn, nowMs)}`;
  const day = dayWords(on, nowMs);
  if (lateDays > 0) return `Overdue since ${day}, ${days(lateDays)}`;
  if (lateDays === 0) return 'Due today';
  return `Due ${day}, in ${days(-lateDays)}`;
}

const UNDATED: Record<DueRowAnswer['state'], string> = {
  off: 'Put off',
  'not-needed': 'Not needed here',
  unwritten: 'No date known',
  waits: 'Waits until the well is back',
  later: 'Done',
  due: 'Due',
  overdue: 'Overdue',
};

function days(n: number): string {
  if (n >= 730) return `${Math.round(n / 365)} years`;
  if (n >= 60) return `${Math.round(n / 30.4)} months`;
  return n === 1 ? '1 day' : `${n} days`;
}

export function roundWords(round: CheckRowAnswer['round'], nowMs: number): string {
  if (!round) return 'Once.';
  if (round.is === 'on')
    return `Each year on ${dayWords(`${new Date(nowMs).getUTCFullYear()}-${round.day}`, nowMs)}.`;
  if (round.days === 365) return 'Each year.';
  return round.days === 182 ? 'Twice a year.' : `Every ${days(round.days)}.`;
}

/** "38 psi, 2 psi under the measured cut-in of 40 psi." */
export function targetWords(target: TargetAnswer | undefined, units: UnitSystem): string | undefined {
  if (!target) return undefined;
  if (target.kpa === undefined || target.cutInKpa === undefined) return target.why;
  const under = units === 'us' ? '2 psi' : '14 kPa';
  const print = (kpa: number): string => printQuantity(kpa, 'pressure', units);
  return `${print(target.kpa)}, ${under} under the ${target.from === 'measured' ? 'measured cut-in' : 'cut-in on the card'} of ${print(target.cutInKpa)}.`;
}

/** "Laid up until 15 April", "Out of service since 3 May". */
export function restWords({ atRest }: Pick<DueRowAnswer, 'atRest'>, nowMs: number): string {
  if (!atRest) return '';
  const what = atRest.is === 'laid-up' ? 'Laid up' : 'Out of service';
  return atRest.untilOn === undefined
    ? `${what} since ${dayWords(atRest.sinceOn, nowMs)}`
    : `${what} until ${dayWords(atRest.untilOn, nowMs)}`;
}
