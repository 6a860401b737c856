/** What was told of the well, newest first. One that was withdrawn is shown as such: somebody heard of it. */
import { alarmTitle } from '../../../shared/api/alarm-title.ts';
import { CAUSE_WORDS } from '../../../shared/words/cause-words.ts';
import { momentOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import type { AlarmRow } from '../../alarm/alarm-row.ts';

const PRIORITY_WORDS = { now: 'act today', soon: 'within days', note: 'worth a look' } as const;

export function alarmsPart(context: Context): Markup {
  const rows = context.record.alarms
    .toReversed()
    .map((row) => [
      momentOf(context, row.sinceMs),
      html`<strong>${alarmTitle(row.event.alarm)}</strong
        >${row.event.priority && ` (${PRIORITY_WORDS[row.event.priority]})`}. ${row.event.why}.
        ${causeOf(row)}`,
      endOf(context, row),
      row.acknowledgedMs === undefined
        ? ''
        : `seen ${momentOf(context, row.acknowledgedMs)}${row.acknowledgedBy === undefined ? '' : ` by ${row.acknowledgedBy}`}`,
    ]);
  if (rows.length === 0) return html`<p>None was told.</p> `;
  return table(['Since', 'What', 'Until', ''], rows);
}

function causeOf({ event }: AlarmRow): string {
  const first = event.causes?.[0];
  return first === undefined ? '' : `Most likely then: ${CAUSE_WORDS[first.cause].name.toLowerCase()}.`;
}

function endOf(context: Context, { clearedMs, withdrawnMs }: AlarmRow): string {
  if (withdrawnMs !== undefined)
    return `withdrawn ${momentOf(context, withdrawnMs)}: late readings showed otherwise`;
  return clearedMs === undefined ? 'stood when this was written' : momentOf(context, clearedMs);
}
