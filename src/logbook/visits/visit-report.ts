/** A visit as pages and files show it: its work, and before and after it pump by pump. */
import type { Answer } from '../../../shared/api/routes.ts';
import type { VisitAnswer } from '../../../shared/api/visits.ts';
import { currentEntries, type Entry } from '../../../shared/entries/entry.ts';
import { beforeAfterReport, REPORT_DAYS, type ReportInput } from './before-after.ts';
import { affectedByWork, workInVisit, type Visit } from './visits.ts';

interface VisitReportInput extends Omit<ReportInput, 'pump'> {
  /** All of the well, as they were written. */
  entries: readonly Entry[];
  pumps: readonly string[];
  nowMs: number;
}

export function visitReport({ entries, pumps, nowMs, ...input }: VisitReportInput): Answer<'report'> {
  return {
    nowMs,
    visit: visitAnswer(input.visit, currentEntries(entries)),
    days: REPORT_DAYS,
    pumps: pumps.map((pump) => ({ pump, lines: beforeAfterReport({ ...input, pump }) })),
  };
}

/** `entries` that count. */
export function visitAnswer(visit: Visit, entries: readonly Entry[]): VisitAnswer {
  const { windowStartMs: _from, windowEndMs: _until, ...rest } = visit;
  const work = workInVisit(visit, entries);
  const { affectedParts, newBaseline } = affectedByWork(work);
  return { ...rest, affectedParts, needsNewBaseline: newBaseline, work };
}
