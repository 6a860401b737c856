/** The report on one visit, fit for one printed page. */
import type { Answer } from '../../../shared/api/routes.ts';
import { REPORT_CAVEAT } from '../../../shared/text/en/checks/before-after-report.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { VisitReport } from '../../../shared/view/visit-report.tsx';
import { useAppContext } from '../../data/settings.ts';
import { PhotoRow } from '../../ui/photo-row.tsx';
import { texts } from './texts.ts';

export interface ReportSheetProps {
  well: string;
  timeZone: string;
  report: Answer<'report'>;
}

export function ReportSheet({ well, timeZone, report }: ReportSheetProps) {
  const { units } = useAppContext();
  return (
    <article class="report" aria-labelledby="report">
      <h2 id="report">{texts().beforeAndAfterOf(nameText(well))}</h2>
      <VisitReport
        report={report}
        units={units}
        when={(ms) => momentWords(ms, timeZone, units, report.nowMs)}
        photos={PhotoRow}
      />
      <p class="secondary">{texts().reportBasis(report.days, REPORT_CAVEAT)}</p>
    </article>
  );
}
