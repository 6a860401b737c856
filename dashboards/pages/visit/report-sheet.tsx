/**
 * The report on one visit, fit for one printed page: what was done, and each measure before and
 * after as words, figures and a small drawing.
 */
import { Fragment } from 'preact';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import type { ReportLineAnswer } from '../../../shared/api/visits.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import {
  MEASURE_NOTES,
  MEASURE_TITLES,
  REPORT_CAVEAT,
  reportStage,
  reportLineText,
  formatMeasure,
  reportSideText,
  type ReportStage,
} from '../../../shared/text/en/checks/before-after-report.ts';
import { useAppContext } from '../../data/settings.ts';
import { nameText, withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { BeforeAfterChart } from './before-after-chart.tsx';
import { WorkList } from './work-list.tsx';

export interface ReportSheetProps {
  well: string;
  timeZone: string;
  report: Answer<'report'>;
}

export function ReportSheet({ well, timeZone, report }: ReportSheetProps) {
  const { units } = useAppContext();
  const { visit, pumps, nowMs, days } = report;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs);
  const stage = reportStage(report);
  return (
    <article class="report" aria-labelledby="report">
      <h2 id="report">Before and after, {nameText(well)}</h2>
      <p>
        Visit of {when(visit.openedMs)}
        {visit.openedBy !== undefined && `, opened by ${visit.openedBy}`}
        {visit.closedMs === undefined ? '; still open' : `; closed ${when(visit.closedMs)}`}
        {visit.closedBy !== undefined && ` by ${visit.closedBy}`}.{' '}
        {visit.newBaseline && 'What is normal is learnt anew since.'}
      </p>
      <WorkList work={visit.work} />
      {pumps.map(({ pump, lines }) => (
        <Fragment key={pump}>
          {pumps.length > 1 && <h3>Pump {pump.slice(1)}</h3>}
          <div class="report-lines">
            {lines.map((line) => (
              <ReportLine key={line.measure} line={line} stage={stage} />
            ))}
          </div>
        </Fragment>
      ))}
      <p class="secondary">
        Runs and whole days up to {days} days on either side, or to the next visit. Spread is 1.4826 × the
        median absolute deviation. {REPORT_CAVEAT}
      </p>
    </article>
  );
}

function ReportLine({ line, stage }: { line: ReportLineAnswer; stage: ReportStage }) {
  const { units } = useAppContext();
  const { measure, before, after, normal } = line;
  const note = MEASURE_NOTES[measure];
  return (
    <section class={`report-line is-${line.verdict}`}>
      <h4>{MEASURE_TITLES[measure]}</h4>
      <p>{withNonBreakingUnits(reportLineText(line, stage, units))}</p>
      <BeforeAfterChart line={line} units={units} />
      <p class="secondary">
        Before: {reportSideText(line, before, units)}. After: {reportSideText(line, after, units)}.
        {normal !== undefined && ` Usual before: ${formatMeasure(measure, normal, units)}.`}
        {note !== undefined && ` From ${note}.`}
      </p>
    </section>
  );
}
