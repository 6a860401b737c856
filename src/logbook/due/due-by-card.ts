/**
 * What the card and the logbook themselves call for: the next change of a filter, the hours of a
 * lamp, a flood that somebody recorded.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { entriesOf } from '../../../shared/entries/entry.ts';
import type { DueKind } from '../../../shared/text/en/checks/due-words.ts';
import { isIsoDate } from '../../core/domain/rfc3339.ts';
import type { DueInput, DueTrigger } from './due.ts';
import { texts } from './texts.ts';

export function cardTriggers(kind: DueKind, input: DueInput): DueTrigger[] {
  if (kind === 'after-flood') return floodTriggers(input);
  if (kind === 'treatment')
    return (['sedimentFilter', 'carbonFilter', 'reverseOsmosis'] as const).flatMap((unit) =>
      changeTrigger(unit, input),
    );
  return kind === 'uv-lamp' ? [...changeTrigger('uvLamp', input), ...lampTrigger(input)] : [];
}

/** A month or a year alone is too vague to call for anything. */
function changeTrigger(
  unit: keyof ReturnType<typeof texts>['treatmentUnits'],
  { card }: DueInput,
): DueTrigger[] {
  const date = card.description?.treatmentUnits?.[unit]?.nextChange;
  if (date === undefined || !isIsoDate(date)) return [];
  return [{ date, reason: texts().nextChange(texts().treatmentUnits[unit], date) }];
}

/** By its hours from the day on which it went in, unless the card gives the day itself. */
function lampTrigger({ card }: DueInput): DueTrigger[] {
  const { installed, lampLifeS, nextChange } = card.description?.treatmentUnits?.uvLamp ?? {};
  if (nextChange !== undefined || lampLifeS === undefined || installed === undefined) return [];
  if (!isIsoDate(installed)) return [];
  const endMs = Date.parse(`${installed}T12:00:00Z`) + (lampLifeS / 3600) * HOUR_MS;
  return [{ date: new Date(endMs).toISOString().slice(0, 10), reason: texts().lampLife(installed) }];
}

/** A flood of half a year ago asks for nothing any more (argued): the water was tested since. */
const FLOOD_MS = 182 * DAY_MS;

function floodTriggers({ entries, card, nowMs }: DueInput): DueTrigger[] {
  return entriesOf(entries, 'note')
    .filter(({ atMs, body }) => body.event === 'flood' && nowMs - atMs < FLOOD_MS)
    .map(({ atMs }) => localDate(atMs, card.timeZone))
    .map((date) => ({ date, reason: texts().floodOn(date), cautions: ['flood'] as const }));
}
