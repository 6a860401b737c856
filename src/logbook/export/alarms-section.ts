/**
 * What was told of the well, newest first. One that was withdrawn is shown as such: somebody heard
 * of it.
 */
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { URGENCY_WORDS, urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { formatMoment, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import type { AlarmRow } from '../../core/alarms/lifecycle/alarm-row.ts';

export function alarmsSection(context: ExportContext): Markup {
  const rows = context.record.alarms
    .toReversed()
    .map((row) => [
      formatMoment(context, row.sinceMs),
      html`<strong>${alarmTitle(row.event.alarm)}</strong>${howSoon(row)}. ${whyOf(row)} ${causeOf(row)}`,
      endOf(context, row),
      row.acknowledgedMs === undefined
        ? ''
        : `seen ${formatMoment(context, row.acknowledgedMs)}${row.acknowledgedBy === undefined ? '' : ` by ${row.acknowledgedBy}`}`,
    ]);
  if (rows.length === 0) return html`<p>None was told.</p> `;
  return table(['Since', 'What', 'Until', ''], rows);
}

/** A sentence stored by an earlier version may lack its period. */
function whyOf({ event }: AlarmRow): string {
  return whyText(event, 'both').replace(/\.?$/, '.');
}

function howSoon({ event: { alarm, priority, evidence = {} } }: AlarmRow): string {
  return priority === undefined
    ? ''
    : ` (${URGENCY_WORDS[urgencyOf({ alarm, priority, evidence })].mark.toLowerCase()})`;
}

function causeOf({ event }: AlarmRow): string {
  const first = event.causes?.[0];
  return first === undefined ? '' : `Most likely then: ${CAUSE_WORDS[first.cause].name.toLowerCase()}.`;
}

function endOf(context: ExportContext, { clearedMs, withdrawnMs }: AlarmRow): string {
  if (withdrawnMs !== undefined)
    return `withdrawn ${formatMoment(context, withdrawnMs)}: late readings showed otherwise`;
  return clearedMs === undefined ? 'stood when this was written' : formatMoment(context, clearedMs);
}
