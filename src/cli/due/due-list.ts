/**
 * `stillwell due`: what has a day, then what nobody wrote down by well with its proposed day, then
 * what waits for wells that stand still.
 */
import { formatCount } from '../../../shared/text/en/format.ts';
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { Io } from '../command.ts';

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
  io.out(`${due.length} due by ${until} on ${formatCount(wells, 'well')}; ${late} overdue`);
  printNotRecorded(io, answer);
  printOnHold(io, answer.onHold);
}

function printNotRecorded(io: Io, { notRecorded, notRecordedTotal, until }: Answer<'due'>): void {
  const { checks, wells } = notRecordedTotal;
  if (checks === 0) return;
  io.out(
    `\nNever recorded: ${formatCount(checks, 'check')} on ${formatCount(wells, 'well')}.${notRecorded.length > 0 ? ' Proposed dates:' : ''}`,
  );
  for (const [well, rows] of byWell(notRecorded))
    io.out(`${rows[0]?.proposedDate}  ${well}  ${rows.map(({ check }) => check).join(', ')}`);
  const later = checks - notRecorded.length;
  if (later > 0)
    io.out(`${formatCount(later, 'check')} proposed after ${until}. To set other dates: stillwell due plan`);
}

function printOnHold(io: Io, rows: readonly DueRowAnswer[]): void {
  if (rows.length > 0) io.out('\nOn hold:');
  for (const [well, of] of byWell(rows))
    io.out(`${well}  ${downtimeWords(of[0])}  ${of.map(({ check }) => check).join(', ')}`);
}

function downtimeWords(row: DueRowAnswer | undefined): string {
  if (!row?.onHold) return '';
  const { is, sinceDate, untilDate } = row.onHold;
  const what = is === 'laid-up' ? 'laid up' : 'out of service';
  return untilDate === undefined ? `${what} since ${sinceDate}` : `${what} until ${untilDate}`;
}

/** In the order in which their first rows come. */
function byWell(rows: readonly DueRowAnswer[]): Map<string, DueRowAnswer[]> {
  const wells = new Map<string, DueRowAnswer[]>();
  for (const row of rows) wells.set(row.well, [...(wells.get(row.well) ?? []), row]);
  return wells;
}

function lateWords({ lateDays = 0 }: DueRowAnswer): string {
  if (lateDays > 0) return `${lateDays} d late`;
  return lateDays === 0 ? 'today' : `in ${-lateDays} d`;
}

function targetWords({ target }: DueRowAnswer): string {
  if (target?.kpa === undefined) return '';
  const [us, metric] = [
    formatQuantity(target.kpa, 'pressure', 'us'),
    formatQuantity(target.kpa, 'pressure', 'metric'),
  ];
  return `: target ${us} (${metric})`;
}
