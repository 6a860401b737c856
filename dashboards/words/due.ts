/** When a check is due, in words: a date, and how far away it is. */
import type { CheckRowAnswer, DueRowAnswer, TargetAnswer } from '../../shared/api/due.ts';
import { dateWords } from '../../shared/text/en/time-words.ts';
import { formatQuantity, type UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { texts } from '../texts.ts';

/** 2 psi: how far the precharge is to lie under cut-in. */
const UNDER_CUT_IN_KPA = 13.8;

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
 * "Overdue since 3 May, 12 days", "Due 31 May, in 6 days", "No recorded date. Proposed: 12
 * January".
 */
export function dueWords({ dueDate, lateDays = 0, state, proposedDate }: Dated, nowMs: number): string {
  if (dueDate === undefined)
    return proposedDate === undefined
      ? texts().undated[state]
      : texts().proposed(dayWords(proposedDate, nowMs));
  const day = dayWords(dueDate, nowMs);
  if (lateDays > 0) return texts().overdueSince(day, lateDays);
  return lateDays === 0 ? texts().dueToday : texts().dueOn(day, -lateDays);
}

export function roundWords(round: CheckRowAnswer['recurrence'], nowMs: number): string {
  if (!round) return texts().once;
  if (round.is === 'yearly')
    return texts().yearlyOn(dayWords(`${new Date(nowMs).getUTCFullYear()}-${round.day}`, nowMs));
  return texts().everyDays(round.days);
}

/** "38 psi, 2 psi under the measured cut-in of 40 psi." */
export function targetWords(target: TargetAnswer | undefined, units: UnitSystem): string | undefined {
  if (!target) return undefined;
  if (target.kpa === undefined || target.cutInKpa === undefined) return target.reason;
  const format = (kpa: number): string => formatQuantity(kpa, 'pressure', units);
  return texts().targetUnder({
    target: format(target.kpa),
    under: format(UNDER_CUT_IN_KPA),
    cutIn: format(target.cutInKpa),
    isMeasured: target.from === 'measured',
  });
}

/** "Laid up until 15 April", "Out of service since 3 May". */
export function downtimeWords({ onHold }: Pick<DueRowAnswer, 'onHold'>, nowMs: number): string {
  if (!onHold) return '';
  const { is, sinceDate, untilDate } = onHold;
  return texts().downtime[is](
    dayWords(sinceDate, nowMs),
    untilDate === undefined ? undefined : dayWords(untilDate, nowMs),
  );
}
