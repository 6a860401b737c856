/**
 * What a visit did, as the readings show it: the work, and each measure before and after as words,
 * figures and a small drawing.
 */
import { Fragment } from 'preact';
import type { Answer } from '../api/routes.ts';
import type { ReportLineAnswer } from '../api/visits.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import {
  MEASURE_NOTES,
  MEASURE_TITLES,
  reportStage,
  reportLineText,
  formatMeasure,
  reportSideText,
  type ReportStage,
} from '../text/en/checks/before-after-report.ts';
import { withNonBreakingUnits } from '../text/en/names.ts';
import { BeforeAfterChart } from './before-after-chart.tsx';
import { WorkList, type WorkListProps } from './work-list.tsx';
import { texts } from './texts.ts';

interface VisitReportProps extends Omit<WorkListProps, 'work'> {
  report: Answer<'report'>;
  units: UnitSystem;
  when: (atMs: number) => string;
}

export function VisitReport({ report, units, when, ...workProps }: VisitReportProps) {
  const { visit, pumps } = report;
  const stage = reportStage(report);
  return (
    <>
      <p>
        {texts().visitOf({
          opened: when(visit.openedMs),
          openedBy: visit.openedBy,
          closed: visit.closedMs === undefined ? undefined : when(visit.closedMs),
          closedBy: visit.closedBy,
        })}{' '}
        {visit.newBaseline && texts().newBaseline}
      </p>
      <WorkList work={visit.work} {...workProps} />
      {pumps.map(({ pump, lines }) => (
        <Fragment key={pump}>
          {pumps.length > 1 && lines.length > 0 && <h4>{texts().pump(pump.slice(1))}</h4>}
          <div class="report-lines">
            {lines.map((line) => (
              <ReportLine key={line.measure} line={line} stage={stage} units={units} />
            ))}
          </div>
        </Fragment>
      ))}
    </>
  );
}

function ReportLine(props: { line: ReportLineAnswer; stage: ReportStage; units: UnitSystem }) {
  const { line, stage, units } = props;
  const { measure, before, after, normal } = line;
  const note = MEASURE_NOTES[measure];
  return (
    <section class={`report-line is-${line.verdict}`}>
      <h4>{MEASURE_TITLES[measure]}</h4>
      <p>{withNonBreakingUnits(reportLineText(line, stage, units))}</p>
      <BeforeAfterChart line={line} units={units} />
      <p class="secondary">
        {texts().sides(reportSideText(line, before, units), reportSideText(line, after, units))}
        {normal !== undefined && ` ${texts().normalBefore(formatMeasure(measure, normal, units))}`}
        {note !== undefined && ` ${texts().basedOn(note)}`}
      </p>
    </section>
  );
}
