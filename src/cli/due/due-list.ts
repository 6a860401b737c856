/**
 * `stillwell due`: what has a day, then what nobody wrote down by well with its proposed day, then
 * what waits for wells that stand still.
 */
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { Io } from '../command.ts';
import { texts } from './texts.ts';

export function printDue(io: Io, answer: Answer<'due'>): void {
  const { due, until, wells } = answer;
  const wide = (key: 'well' | 'check'): number => Math.max(0, ...due.map((row) => row[key].length));
  const [well, check] = [wide('well'), wide('check')];
  for (const row of due)
    io.out(
      [
        row.dueDate ?? '',
        lateWords(row).padEnd(13),
        row.well.padEnd(well),
        row.check.padEnd(check),
        row.title + targetWords(row),
      ].join('  '),
    );
  const late = due.filter(({ state }) => state === 'overdue').length;
  io.out(texts().dueByOnOverdue({ dueCount: due.length, until, wells, late }));
  printNotRecorded(io, answer);
  printOnHold(io, answer.onHold);
}

function printNotRecorded(io: Io, { notRecorded, notRecordedTotal, until }: Answer<'due'>): void {
  const { checks, wells } = notRecordedTotal;
  if (checks === 0) return;
  io.out(
    texts().neverRecorded({
      checks,
      wells,
      hasDates: notRecorded.length > 0,
    }),
  );
  for (const [well, rows] of byWell(notRecorded))
    io.out(`${rows[0]?.proposedDate}  ${well}  ${rows.map(({ check }) => check).join(', ')}`);
  const later = checks - notRecorded.length;
  if (later > 0) io.out(texts().proposedAfterToSetOther({ checks: later, until }));
}

function printOnHold(io: Io, rows: readonly DueRowAnswer[]): void {
  if (rows.length > 0) io.out(texts().onHold);
  for (const [well, of] of byWell(rows))
    io.out(`${well}  ${downtimeWords(of[0])}  ${of.map(({ check }) => check).join(', ')}`);
}

function downtimeWords(row: DueRowAnswer | undefined): string {
  if (!row?.onHold) return '';
  const { is, sinceDate, untilDate } = row.onHold;
  const what = is === 'laid-up' ? texts().laidUp : texts().outOfService;
  return untilDate === undefined ? texts().since({ what, sinceDate }) : texts().until({ what, untilDate });
}

/** In the order in which their first rows come. */
function byWell(rows: readonly DueRowAnswer[]): Map<string, DueRowAnswer[]> {
  const wells = new Map<string, DueRowAnswer[]>();
  for (const row of rows) wells.set(row.well, [...(wells.get(row.well) ?? []), row]);
  return wells;
}

function lateWords({ lateDays = 0 }: DueRowAnswer): string {
  if (lateDays > 0) return texts().dLate(lateDays);
  return lateDays === 0 ? texts().today : texts().inDays(-lateDays);
}

function targetWords({ target }: DueRowAnswer): string {
  if (target?.kpa === undefined) return '';
  const [us, metric] = [
    formatQuantity(target.kpa, 'pressure', 'us'),
    formatQuantity(target.kpa, 'pressure', 'metric'),
  ];
  return texts().target({ us, metric });
}
