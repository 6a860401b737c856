/**
 * Visits with the work that was done in them and what was measured before and after; then work that
 * was done outside of any.
 */
import { entriesOf } from '../../../shared/entries/entry.ts';
import { REPORT_CAVEAT } from '../../../shared/text/en/checks/before-after-report.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { VisitReport } from '../../../shared/view/visit-report.tsx';
import { WorkList } from '../../../shared/view/work-list.tsx';
import { REPORT_DAYS } from '../visits/before-after.ts';
import { visitReport } from '../visits/visit-report.ts';
import { visitsOf } from '../visits/visits.ts';
import type { ExportContext } from './context.ts';

const TEXT = EXPORT_FILE_TEXT.visits;

export function VisitsSection(context: ExportContext) {
  const { record, entries, units, day, moment } = context;
  const reports = visitsOf(record.acts)
    .toReversed()
    .map((visit) => visitReport({ ...inputOf(context), visit }));
  const within = new Set(reports.flatMap(({ visit }) => visit.work.map(({ id }) => id)));
  const outside = entriesOf(entries, 'work').filter(({ id }) => !within.has(id));
  if (reports.length + outside.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  return (
    <>
      {reports.length > 0 && (
        <p class="secondary">
          {TEXT.windows(REPORT_DAYS)} {REPORT_CAVEAT}
        </p>
      )}
      {reports.map((report) => (
        <article key={report.visit.id} class="report">
          <h3>{TEXT.heading(day(report.visit.openedMs))}</h3>
          <VisitReport report={withVerdicts(report)} units={units} when={moment} day={day} />
        </article>
      ))}
      {outside.length > 0 && (
        <>
          <h3>{TEXT.outside}</h3>
          <WorkList work={outside.toReversed()} day={day} />
        </>
      )}
    </>
  );
}

function inputOf({ record, card, timeZone, newestMs }: ExportContext) {
  return {
    timeZone,
    cycles: record.cycles.map(({ event }) => event),
    days: record.days.map(({ event }) => event),
    baselines: record.baselines.map(({ event }) => event),
    entries: record.entries,
    pumps: card?.pumps.map(({ id }) => id) ?? ['p1'],
    nowMs: newestMs,
  };
}

/** Only measures of which something can be said. */
function withVerdicts(report: ReturnType<typeof visitReport>): ReturnType<typeof visitReport> {
  const pumps = report.pumps.map(({ pump, lines }) => ({
    pump,
    lines: lines.filter(({ verdict }) => verdict !== 'pending'),
  }));
  return { ...report, pumps };
}
