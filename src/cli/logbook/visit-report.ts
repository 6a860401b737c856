/**
 * The before/after report of a visit as lines of text, in the words of its page: what was done, and
 * each measure before and after.
 */
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
import { texts } from './texts.ts';

export interface ReportParams {
  well: string;
  units: UnitSystem;
  /** A moment in words. */
  when: (atMs: number) => string;
}

export function printReport(io: Io, report: Answer<'report'>, { well, units, when }: ReportParams): void {
  const { visit, pumps, days } = report;
  const closed = visit.closedMs === undefined ? texts().stillOpen : texts().closedAt(when(visit.closedMs));
  io.out(texts().beforeAndAfterVisit({ well, when: when(visit.openedMs), closed }));
  for (const line of visit.work.flatMap(workLines)) io.out(`  ${line}`);
  if (visit.work.length === 0) io.out(texts().noWorkIsRecorded);
  for (const { pump, lines } of pumps) {
    if (pumps.length > 1) io.out(texts().pump(pump.slice(1)));
    for (const line of lines) {
      io.out(`${MEASURE_TITLES[line.measure]}: ${reportLineText(line, reportStage(report), units)}`);
      if (line.before.count === 0 && line.after.count === 0) continue;
      const before = reportSideText(line, line.before, units);
      const after = reportSideText(line, line.after, units);
      const normal =
        line.normal === undefined
          ? ''
          : ` ${texts().normalBefore(formatMeasure(line.measure, line.normal, units))}`;
      io.out(`  ${texts().beforeAfter({ before, after })}${normal}`);
    }
  }
  io.out(texts().runsAndWholeDaysUp({ days, reportCaveat: REPORT_CAVEAT }));
}

export function workLines({ body, by }: EntryOf<'work'>): string[] {
  const { done, doneBy, text, parts = [], touched = [], papers = [] } = body;
  const details = [
    parts.length === 0 ? '' : texts().partsUsed(parts.join(', ')),
    touched.length === 0 ? '' : texts().touched(touched.join(', ')),
    doneBy === undefined ? '' : texts().doneBy(doneBy),
    by === undefined ? '' : texts().recordedBy(by),
    papers.length === 0 ? '' : texts().documentCount(papers.length),
    text ?? '',
  ].filter((part) => part !== '');
  return [`${done}${details.length === 0 ? '' : ` (${details.join('; ')})`}`];
}
