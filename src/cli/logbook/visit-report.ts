/**
 * The before/after report of a visit as lines of text, in the words of its page: what was done, and
 * each measure before and after.
 */
import { formatCount } from '../../../shared/text/en/format.ts';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import {
  MEASURE_TITLES,
  REPORT_CAVEAT,
  reportStage,
  reportLineText,
  formatMeasure,
  reportSideText,
} from '../../../shared/text/en/checks/before-after-report.ts';
import type { Io } from '../command.ts';

export interface ReportParams {
  well: string;
  units: UnitSystem;
  /** A moment in words. */
  when: (atMs: number) => string;
}

export function printReport(io: Io, report: Answer<'report'>, { well, units, when }: ReportParams): void {
  const { visit, pumps, days } = report;
  const closed = visit.closedMs === undefined ? 'still open' : `closed ${when(visit.closedMs)}`;
  io.out(`Before and after, ${well}: visit of ${when(visit.openedMs)}; ${closed}`);
  for (const line of visit.work.flatMap(workLines)) io.out(`  ${line}`);
  if (visit.work.length === 0) io.out('  No work is recorded.');
  for (const { pump, lines } of pumps) {
    if (pumps.length > 1) io.out(`Pump ${pump.slice(1)}`);
    for (const line of lines) {
      io.out(`${MEASURE_TITLES[line.measure]}: ${reportLineText(line, reportStage(report), units)}`);
      if (line.before.count === 0 && line.after.count === 0) continue;
      const normalText =
        line.normal === undefined
          ? ''
          : ` Normal before: ${formatMeasure(line.measure, line.normal, units)}.`;
      io.out(
        `  before: ${reportSideText(line, line.before, units)}; after: ${reportSideText(line, line.after, units)}.${normalText}`,
      );
    }
  }
  io.out(`Runs and whole days up to ${days} days on either side, or to the next visit. ${REPORT_CAVEAT}`);
}

export function workLines({ body, by }: EntryOf<'work'>): string[] {
  const { done, doneBy, text, parts = [], touched = [], papers = [] } = body;
  const details = [
    parts.length === 0 ? '' : `parts: ${parts.join(', ')}`,
    touched.length === 0 ? '' : `touched ${touched.join(', ')}`,
    doneBy === undefined ? '' : `done by ${doneBy}`,
    by === undefined ? '' : `recorded by ${by}`,
    papers.length === 0 ? '' : formatCount(papers.length, 'document'),
    text ?? '',
  ].filter((part) => part !== '');
  return [`${done}${details.length === 0 ? '' : ` (${details.join('; ')})`}`];
}
