/** The report on one visit, fit for one printed page. */
import type { Answer } from '../../../shared/api/routes.ts';
import { REPORT_CAVEAT } from '../../../shared/text/en/checks/before-after-report.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { VisitReport } from '../../../shared/view/visit-report.tsx';
import { useAppContext } from '../../data/settings.ts';
import { PhotoRow } from '../../ui/photo-row.tsx';

export interface ReportSheetProps {
  well: string;
  timeZone: string;
  report: Answer<'report'>;
}

export function ReportSheet({ well, timeZone, report }: ReportSheetProps) {
  const { units } = useAppContext();
  return (
    <article class="report" aria-labelledby="report">
      <h2 id="report">Before and after, {nameText(well)}</h2>
      <VisitReport
        report={report}
        units={units}
        when={(ms) => momentWords(ms, timeZone, units, report.nowMs)}
        photos={PhotoRow}
      />
      <p class="secondary">
        Runs and whole days up to {report.days} days on either side, or to the next visit. Spread is 1.4826 ×
        the median absolute deviation. {REPORT_CAVEAT}
      </p>
    </article>
  );
}
