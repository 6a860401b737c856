/** Alarms, newest first. One that was withdrawn is shown as such: somebody was notified of it. */
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { URGENCY_WORDS, urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import { Table } from '../../../shared/view/table.tsx';
import type { AlarmRow } from '../../core/alarms/lifecycle/alarm-row.ts';
import type { ExportContext } from './context.ts';

const TEXT = EXPORT_FILE_TEXT.alarms;

export function AlarmsSection({ record: { alarms }, units, moment }: ExportContext) {
  if (alarms.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  const rows = alarms.toReversed().map((row) => ({
    key: row.id,
    cells: [
      moment(row.sinceMs),
      <>
        <strong>{alarmTitle(row.event.alarm)}</strong>
        {urgency(row)}. {whyText(row.event, units).replace(/\.?$/, '.')}
        {likelyCause(row)}
      </>,
      endText(row, moment),
      acknowledgedText(row, moment),
    ],
  }));
  return <Table head={TEXT.head} rows={rows} />;
}

function urgency({ event: { alarm, priority, evidence = {} } }: AlarmRow): string {
  return priority === undefined
    ? ''
    : TEXT.urgency(URGENCY_WORDS[urgencyOf({ alarm, priority, evidence })].mark);
}

function likelyCause({ event }: AlarmRow): string {
  const first = event.causes?.[0];
  return first === undefined ? '' : TEXT.cause(CAUSE_WORDS[first.cause].name);
}

function endText({ clearedMs, withdrawnMs }: AlarmRow, moment: (atMs: number) => string): string {
  if (withdrawnMs !== undefined) return TEXT.withdrawn(moment(withdrawnMs));
  return clearedMs === undefined ? TEXT.active : moment(clearedMs);
}

function acknowledgedText(
  { acknowledgedMs, acknowledgedBy }: AlarmRow,
  moment: (atMs: number) => string,
): string {
  if (acknowledgedMs === undefined) return '';
  const by = acknowledgedBy === undefined ? '' : EXPORT_FILE_TEXT.byName(acknowledgedBy);
  return TEXT.acknowledged(moment(acknowledgedMs), by);
}
