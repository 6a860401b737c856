/** The calendar of what is due, of all wells or of one: what a phone subscribes to. */
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { DUE_WORDS, isDueKind } from '../../shared/words/due-words.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { calendarFeed, type CalendarEvent } from '../book/calendar.ts';
import { dueChecks, type DueCheck } from '../book/due.ts';
import type { WebDeps } from './deps.ts';
import { placeOf, wellsAsked } from './due-answers.ts';
import { aroundWells, dueWell, type DueWell } from './due-parts.ts';

/** All as text/calendar. @throws ProblemError 404. */
export function calendarText(deps: WebDeps, well: string | undefined): string {
  const around = aroundWells(deps, well);
  const events = wellsAsked(deps, well === undefined ? {} : { well }).flatMap((live) => {
    const input = dueWell(deps, live, around);
    return dueChecks(input).flatMap((check) => eventOf(check, input) ?? []);
  });
  const ordered = events.toSorted((a, b) => a.firstOn.localeCompare(b.firstOn) || a.uid.localeCompare(b.uid));
  return calendarFeed(well === undefined ? 'Wells' : `Well ${well}`, ordered);
}

function eventOf(check: DueCheck, input: DueWell): CalendarEvent | undefined {
  if (check.on === undefined) return undefined;
  const { well } = input.card;
  const today = localDate(input.nowMs, input.card.timeZone);
  const where = placeOf(check.check, input);
  return {
    // The well's first act, so that two wells of one name in two Stillwells stay two on one phone.
    uid: [check.check, well, input.root ?? 'new', 'stillwell'].join('.'),
    firstOn: check.on,
    lastOn: check.on < today ? today : check.on,
    title: `${check.title}: ${well}`,
    text: textOf(check),
    category: well,
    ...(where !== undefined && { where }),
    changedMs: input.changedMs,
  };
}

function textOf({ check, because, target, text, cautions }: DueCheck): string {
  const words = isDueKind(check) ? DUE_WORDS[check] : undefined;
  const aim =
    target?.is === 'known'
      ? `Target ${printQuantity(target.kpa, 'pressure', 'us')} (${printQuantity(target.kpa, 'pressure', 'metric')}), 2 psi under the ${target.from === 'measured' ? 'measured cut-in' : 'cut-in on the card'}.`
      : target?.why;
  return [
    ...because,
    ...(text === undefined ? [] : [text]),
    ...(aim === undefined ? [] : [aim]),
    ...(words?.how ?? []).map((step, at) => `${at + 1}. ${step}`),
    ...cautions.map((caution) => CAUTIONS[caution]),
  ].join('\n');
}
