/**
 * What is due as events of a calendar: one a check and well. But what falls on one day on many
 * wells, as the frost does, or is late on many, is one event that names them; and what nobody wrote
 * down is one event a well, on a day that its title calls proposed. So a firm of two hundred wells
 * can look at its calendar.
 */
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { DUE_WORDS, isDueKind } from '../../../shared/text/en/checks/due-words.ts';
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { Card } from '../../core/domain/card.ts';
import type { CalendarEvent } from './calendar.ts';
import type { DueCheck } from './due.ts';
import { checkLocation } from './check-location.ts';
import { texts } from './texts.ts';

export interface WellChecks {
  card: Card;
  /**
   * The well's first act, so that two wells of one name in two Stillwells stay two on one phone.
   */
  firstActId?: string;
  changedMs: number;
  /** ISO date in the well's own time zone. */
  today: string;
  checks: readonly DueCheck[];
}

/** More wells than this on one day, with one and the same check, are one event. */
const MAX_SINGLE_EVENTS = 5;
/** As many names as somebody reads in a calendar. */
const MAX_NAMES = 100;

interface DatedCheck {
  wellChecks: WellChecks;
  check: DueCheck;
  dueDate: string;
}

/** By day, then id. */
export function dueEvents(wells: readonly WellChecks[]): CalendarEvent[] {
  const dated = wells.flatMap((of) =>
    of.checks.flatMap((check): DatedCheck[] =>
      check.dueDate === undefined ? [] : [{ wellChecks: of, check, dueDate: check.dueDate }],
    ),
  );
  const events = [
    ...groupByDate(dated).flatMap((ones) =>
      ones.length > MAX_SINGLE_EVENTS ? [groupEvent(ones)] : ones.map(singleEvent),
    ),
    ...wells.flatMap(notRecordedEvent),
  ];
  return events.toSorted((a, b) => a.firstDate.localeCompare(b.firstDate) || a.uid.localeCompare(b.uid));
}

function groupByDate(checks: readonly DatedCheck[]): DatedCheck[][] {
  const groups = new Map<string, DatedCheck[]>();
  for (const one of checks) {
    const key = `${one.check.check} ${isOverdue(one) ? 'late' : one.dueDate}`;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()];
}

function isOverdue({ dueDate, wellChecks: { today } }: DatedCheck): boolean {
  return dueDate < today;
}

function singleEvent({ wellChecks, check, dueDate }: DatedCheck): CalendarEvent {
  const { card, changedMs } = wellChecks;
  const where = checkLocation(check.check, card);
  return {
    uid: eventUid(check.check, wellChecks),
    ...eventDates(dueDate, wellChecks),
    title: `${check.title}: ${card.well}`,
    text: [...reasonLines(check), ...instructionLines(check)].join('\n'),
    category: card.well,
    ...(where !== undefined && { location: where }),
    changedMs,
  };
}

/** A day in the past would be seen by nobody: what is overdue lasts through today. */
function eventDates(dueDate: string, { today }: WellChecks): Pick<CalendarEvent, 'firstDate' | 'lastDate'> {
  return { firstDate: dueDate, lastDate: dueDate < today ? today : dueDate };
}

function eventUid(what: string, { card, firstActId }: WellChecks): string {
  return [what, card.well, firstActId ?? 'new', 'stillwell'].join('.');
}

/**
 * What is late stands on today alone: from the earliest day on it would cover the whole calendar.
 */
function groupEvent(checks: readonly DatedCheck[]): CalendarEvent {
  const named = checks.toSorted((a, b) => wellName(a).localeCompare(wellName(b)));
  const first = named[0]!;
  const { wellChecks, check, dueDate } = first;
  const late = isOverdue(first);
  const names = named
    .slice(0, MAX_NAMES)
    .map((one) => (late ? texts().wellSince(wellName(one), one.dueDate) : wellName(one)));
  const more = named.length - names.length;
  const day = late ? wellChecks.today : dueDate;
  return {
    uid: eventUid(`${check.check}.${late ? 'late' : dueDate}`, wellChecks),
    firstDate: day,
    lastDate: day,
    title: texts().checkOfWells(late ? texts().overdue : '', check.title, named.length),
    text: [
      `${names.join(', ')}${more > 0 ? texts().andMore(more) : ''}.`,
      texts().recordOnWell,
      ...instructionLines(check),
    ].join('\n'),
    category: 'wells',
    changedMs: Math.max(...named.map((one) => one.wellChecks.changedMs)),
  };
}

function wellName({ wellChecks: { card } }: DatedCheck): string {
  return card.site === undefined ? card.well : `${card.well} (${card.site})`;
}

/** One visit catches up on all of it. */
function notRecordedEvent(of: WellChecks): CalendarEvent[] {
  const { card, changedMs } = of;
  const checks = of.checks.filter(({ state }) => state === 'not-recorded');
  const on = checks.map(({ proposedDate }) => proposedDate ?? '').toSorted((a, b) => b.localeCompare(a))[0];
  if (on === undefined || on === '') return [];
  return [
    {
      uid: eventUid('not-recorded', of),
      firstDate: on,
      lastDate: on,
      title: texts().proposedFor(checks.length, card.well),
      text: [
        texts().proposedHelp,
        ...checks.map((check) => [check.title, ...targetLines(check)].join('. ')),
        ...cautionLines(checks),
      ].join('\n'),
      category: card.well,
      changedMs,
    },
  ];
}

function reasonLines(check: DueCheck): string[] {
  const { reasons, text } = check;
  return [...reasons, ...(text === undefined ? [] : [text]), ...targetLines(check)];
}

function targetLines({ target }: DueCheck): string[] {
  if (!target) return [];
  if (target.is === 'unknown') return [target.reason];
  const [us, metric] = [
    formatQuantity(target.kpa, 'pressure', 'us'),
    formatQuantity(target.kpa, 'pressure', 'metric'),
  ];
  const under = target.from === 'measured' ? texts().measuredCutIn : texts().cutInOnCard;
  return [texts().target(us, metric, under)];
}

function instructionLines(check: DueCheck): string[] {
  const words = isDueKind(check.check) ? DUE_WORDS[check.check] : undefined;
  return [...(words?.steps ?? []).map((step, at) => `${at + 1}. ${step}`), ...cautionLines([check])];
}

function cautionLines(checks: readonly DueCheck[]): string[] {
  return [...new Set(checks.flatMap(({ cautions }) => cautions))].map((caution) => CAUTIONS[caution]);
}
