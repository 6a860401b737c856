/**
 * What is due as events of a calendar: one a check and well. But what falls on one day on many wells, as the frost does, or is late on
 * many, is one event that names them; and what nobody wrote down is one event a well, on a day that its title calls proposed. So a firm
 * of two hundred wells can look at its calendar.
 */
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { DUE_WORDS, isDueKind } from '../../shared/words/due-words.ts';
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import type { Card } from '../card/card.ts';
import type { CalendarEvent } from './calendar.ts';
import type { DueCheck } from './due.ts';
import { placeOf } from './due-place.ts';

export interface WellChecks {
  card: Card;
  /** The well's first act, so that two wells of one name in two Stillwells stay two on one phone. */
  root?: string;
  changedMs: number;
  /** ISO date in the well's own time zone. */
  today: string;
  checks: readonly DueCheck[];
}

/** More wells than this on one day, with one and the same check, are one event. */
const MOST_ALIKE = 5;
/** As many names as somebody reads in a calendar. */
const MOST_NAMES = 100;

interface One {
  of: WellChecks;
  check: DueCheck;
  on: string;
}

/** By day, then id. */
export function dueEvents(wells: readonly WellChecks[]): CalendarEvent[] {
  const dated = wells.flatMap((of) =>
    of.checks.flatMap((check): One[] => (check.on === undefined ? [] : [{ of, check, on: check.on }])),
  );
  const events = [
    ...alike(dated).flatMap((ones) =>
      ones.length > MOST_ALIKE ? [eventOfMany(ones)] : ones.map(eventOfOne),
    ),
    ...wells.flatMap(eventOfUnwritten),
  ];
  return events.toSorted((a, b) => a.firstOn.localeCompare(b.firstOn) || a.uid.localeCompare(b.uid));
}

function alike(ones: readonly One[]): One[][] {
  const groups = new Map<string, One[]>();
  for (const one of ones) {
    const key = `${one.check.check} ${isLate(one) ? 'late' : one.on}`;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()];
}

function isLate({ on, of: { today } }: One): boolean {
  return on < today;
}

function eventOfOne({ of, check, on }: One): CalendarEvent {
  const { card, changedMs } = of;
  const where = placeOf(check.check, card);
  return {
    uid: uidOf(check.check, of),
    ...daysFrom(on, of),
    title: `${check.title}: ${card.well}`,
    text: [...whyLines(check), ...howLines(check)].join('\n'),
    category: card.well,
    ...(where !== undefined && { where }),
    changedMs,
  };
}

/** A day in the past would be seen by nobody: what is overdue lasts through today. */
function daysFrom(on: string, { today }: WellChecks): Pick<CalendarEvent, 'firstOn' | 'lastOn'> {
  return { firstOn: on, lastOn: on < today ? today : on };
}

function uidOf(what: string, { card, root }: WellChecks): string {
  return [what, card.well, root ?? 'new', 'stillwell'].join('.');
}

/** What is late stands on today alone: from the earliest day on it would cover the whole calendar. */
function eventOfMany(ones: readonly One[]): CalendarEvent {
  const named = ones.toSorted((a, b) => nameOf(a).localeCompare(nameOf(b)));
  const first = named[0]!;
  const { of, check, on } = first;
  const late = isLate(first);
  const names = named
    .slice(0, MOST_NAMES)
    .map((one) => (late ? `${nameOf(one)} since ${one.on}` : nameOf(one)));
  const more = named.length - names.length;
  const day = late ? of.today : on;
  return {
    uid: uidOf(`${check.check}.${late ? 'late' : on}`, of),
    firstOn: day,
    lastOn: day,
    title: `${late ? 'Overdue: ' : ''}${check.title}: ${named.length} wells`,
    text: [
      `${names.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`,
      'Each is written down on its own well, and leaves this list then.',
      ...howLines(check),
    ].join('\n'),
    category: 'wells',
    changedMs: Math.max(...named.map((one) => one.of.changedMs)),
  };
}

function nameOf({ of: { card } }: One): string {
  return card.site === undefined ? card.well : `${card.well} (${card.site})`;
}

/** One visit catches up on all of it. */
function eventOfUnwritten(of: WellChecks): CalendarEvent[] {
  const { card, changedMs } = of;
  const checks = of.checks.filter(({ state }) => state === 'unwritten');
  const on = checks.map(({ proposedOn }) => proposedOn ?? '').toSorted((a, b) => b.localeCompare(a))[0];
  if (on === undefined || on === '') return [];
  const count = checks.length === 1 ? '1 check' : `${checks.length} checks`;
  return [
    {
      uid: uidOf('unwritten', of),
      firstOn: on,
      lastOn: on,
      title: `Proposed day, no date known: ${count}, ${card.well}`,
      text: [
        'Nobody wrote down when these were last done. The day is a proposal: do them on any other, or write down when they were done.',
        ...checks.map((check) => [check.title, ...aimLines(check)].join('. ')),
        ...cautionLines(checks),
      ].join('\n'),
      category: card.well,
      changedMs,
    },
  ];
}

function whyLines(check: DueCheck): string[] {
  const { because, text } = check;
  return [...because, ...(text === undefined ? [] : [text]), ...aimLines(check)];
}

function aimLines({ target }: DueCheck): string[] {
  if (!target) return [];
  if (target.is === 'unknown') return [target.why];
  const [us, metric] = [
    printQuantity(target.kpa, 'pressure', 'us'),
    printQuantity(target.kpa, 'pressure', 'metric'),
  ];
  const under = target.from === 'measured' ? 'measured cut-in' : 'cut-in on the card';
  return [`Target ${us} (${metric}), 2 psi under the ${under}.`];
}

function howLines(check: DueCheck): string[] {
  const words = isDueKind(check.check) ? DUE_WORDS[check.check] : undefined;
  return [...(words?.how ?? []).map((step, at) => `${at + 1}. ${step}`), ...cautionLines([check])];
}

function cautionLines(checks: readonly DueCheck[]): string[] {
  return [...new Set(checks.flatMap(({ cautions }) => cautions))].map((caution) => CAUTIONS[caution]);
}
