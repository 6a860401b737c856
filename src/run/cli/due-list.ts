/** `stillwell due`: what has a day, then what nobody wrote down by well with its proposed day, then what waits for wells that stand still. */
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { printQuantity } from '../../../shared/quantity/print-quantity.ts';
import type { Io } from './command.ts';

export function printDue(io: Io, answer: Answer<'due'>): void {
  const { due, until, wells } = answer;
  const wide = (key: 'well' | 'check'): number => Math.max(0, ...due.map((row) => row[key].length));
  const [well, check] = [wide('well'), wide('check')];
  for (const row of due)
    io.out(
      [
        row.on ?? '',
        lateWords(row).padEnd(13),
        row.well.padEnd(well),
        row.check.padEnd(check),
        row.title + targetWords(row),
      ].join('  '),
    );
  const late = due.filter(({ state }) => state === 'overdue').length;
  io.out(`${due.length} due by ${until} on ${count(wells, 'well')}; ${late} overdue`);
  printUnwritten(io, answer);
  printAtRest(io, answer.atRest);
}

function printUnwritten(io: Io, { unwritten, unwrittenInAll, until }: Answer<'due'>): void {
  const { checks, wells } = unwrittenInAll;
  if (checks === 0) return;
  io.out(
    `\nNever written down: ${count(checks, 'check')} on ${count(wells, 'well')}. Nobody knows whether they are late.${unwritten.length > 0 ? ' Days to catch up on them, as proposals:' : ''}`,
  );
  for (const [well, rows] of byWell(unwritten))
    io.out(`${rows[0]?.proposedOn}  ${well}  ${rows.map(({ check }) => check).join(', ')}`);
  const later = checks - unwritten.length;
  if (later > 0)
    io.out(`${count(later, 'check')} proposed after ${until}. Set days of your own: stillwell due plan`);
}

function printAtRest(io: Io, rows: readonly DueRowAnswer[]): void {
  if (rows.length > 0) io.out('\nWaiting for wells that stand still:');
  for (const [well, of] of byWell(rows))
    io.out(`${well}  ${restWords(of[0])}  ${of.map(({ check }) => check).join(', ')}`);
}

function restWords(row: DueRowAnswer | undefined): string {
  if (!row?.atRest) return '';
  const { is, sinceOn, untilOn } = row.atRest;
  const what = is === 'laid-up' ? 'laid up' : 'out of service';
  return untilOn === undefined ? `${what} since ${sinceOn}` : `${what} until ${untilOn}`;
}

/** In the order in which their first rows come. */
function byWell(rows: readonly DueRowAnswer[]): Map<string, DueRowAnswer[]> {
  const wells = new Map<string, DueRowAnswer[]>();
  for (const row of rows) wells.set(row.well, [...(wells.get(row.well) ?? []), row]);
  return wells;
}

function count(n: number, one: string): string {
  return `${n.toLocaleString('en')} ${one}${n === 1 ? '' : 's'}`;
}

function lateWords({ lateDays = 0 }: DueRowAnswer): string {
  if (lateDays > 0) return `${lateDays} d late`;
  return lateDays === 0 ? 'today' : `in ${-lateDays} d`;
}

function targetWords({ target }: DueRowAnswer): string {
  if (target?.kpa === undefined) return '';
  const [us, metric] = [
    printQuantity(target.kpa, 'pressure', 'us'),
    printQuantity(target.kpa, 'pressure', 'metric'),
  ];
  return `: target ${us} (${metric})`;
}
