/**
 * Visits to a well: what to bring before one, what was done in it, and what the readings showed
 * before and after.
 */
import { useState } from 'preact/hooks';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import type { VisitAnswer } from '../../../shared/api/visits.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { PartsList } from './parts-list.tsx';
import { ReportSheet } from './report-sheet.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { ActionForm } from '../../ui/action-form.tsx';
import { PhotoRow } from '../../ui/photo-row.tsx';
import { WorkForm } from './work-form.tsx';
import { WorkList } from '../../../shared/view/work-list.tsx';
import { texts } from './texts.ts';

export function VisitPage({ name }: { name: string }) {
  const { source, units } = useAppContext();
  const detail = useRequest(`well ${name}`, () => source.get('well', { well: name }));
  const visits = useRequest(`visits ${name}`, () => source.get('visits', { well: name }));
  const partsList = useRequest(`parts-list ${name}`, () => source.get('partsList', { well: name }));
  const [shown, setShown] = useState<string>();
  const reload = (): void => {
    detail.reload();
    visits.reload();
  };
  if (shown !== undefined && detail.state.is === 'ready')
    return (
      <VisitReport name={name} visit={shown} detail={detail.state.value} back={() => setShown(undefined)} />
    );
  return (
    <>
      <LogbookHead well={name} page="visit" />
      <RequestView state={detail.state} subject={texts().thisWell} reload={detail.reload}>
        {(value) => (
          <RequestView state={visits.state} subject={texts().visitsSubject} reload={visits.reload}>
            {(answer) => (
              <Visits detail={value} visits={answer.visits} changed={reload} showReport={setShown} />
            )}
          </RequestView>
        )}
      </RequestView>
      <section aria-labelledby="parts-list">
        <h2 id="parts-list">{texts().partsToBring}</h2>
        <RequestView state={partsList.state} subject={texts().partsSubject} reload={partsList.reload}>
          {(value) => <PartsList items={value[units]} />}
        </RequestView>
      </section>
    </>
  );
}

interface VisitsProps {
  detail: WellDetail;
  visits: readonly VisitAnswer[];
  changed: () => void;
  showReport: (visit: string) => void;
}

function Visits({ detail, visits, changed, showReport }: VisitsProps) {
  const open = visits.find(({ closedMs }) => closedMs === undefined);
  const past = visits.filter(({ closedMs }) => closedMs !== undefined);
  return (
    <>
      {open ? (
        <OpenVisit detail={detail} visit={open} changed={changed} closed={() => showReport(open.id)} />
      ) : (
        <NewVisit well={detail.well.well} changed={changed} />
      )}
      <section aria-labelledby="past-visits">
        <h2 id="past-visits">{texts().pastVisits}</h2>
        {past.length === 0 && <p class="status">{texts().none}</p>}
        {past.map((visit) => (
          <PastVisit key={visit.id} visit={visit} detail={detail} show={() => showReport(visit.id)} />
        ))}
      </section>
    </>
  );
}

function NewVisit({ well, changed }: { well: string; changed: () => void }) {
  return (
    <section aria-labelledby="open-visit">
      <h2 id="open-visit">{texts().openVisit}</h2>
      <p>{texts().openVisitHelp}</p>
      <p class="secondary">{CAUTIONS['lock-out']}</p>
      <ActionForm
        button={texts().openVisit}
        submit={(to, _fields, actor) => to.post('act', {}, { act: { kind: 'visit-opened', well }, ...actor })}
        done={changed}
      />
    </section>
  );
}

function OpenVisit(props: {
  detail: WellDetail;
  visit: VisitAnswer;
  changed: () => void;
  closed: () => void;
}) {
  const { detail, visit, changed, closed } = props;
  const { well, timeZone } = detail.well;
  const { units } = useAppContext();
  return (
    <section class="sheet" aria-labelledby="at-work">
      <h2 id="at-work">{texts().visitIsOpen}</h2>
      <p>{texts().openSince(momentWords(visit.openedMs, timeZone, units, nowMs()), visit.openedBy)}</p>
      <p class="secondary">
        {CAUTIONS['lock-out']} {CAUTIONS.electrician}
      </p>
      <h3>{texts().workSoFar}</h3>
      <WorkList work={visit.work} photos={PhotoRow} />
      <details class="more" open={visit.work.length === 0}>
        <summary>{texts().recordWork}</summary>
        <WorkForm well={well} visit={visit.id} changed={changed} />
      </details>
      <h3>{texts().closeVisit}</h3>
      <p>{texts().closeVisitHelp}</p>
      <ActionForm
        key={String(visit.needsNewBaseline)}
        button={texts().closeVisit}
        submit={(to, fields, actor) => {
          const newBaseline = fields.get('anew') !== null;
          return to.post(
            'act',
            {},
            {
              act: { kind: 'visit-closed', well, ...(newBaseline && { newBaseline: true }) },
              ...actor,
            },
          );
        }}
        done={() => {
          changed();
          closed();
        }}
      >
        <label class="tick">
          <input type="checkbox" name="anew" defaultChecked={visit.needsNewBaseline} />
          <span>
            {texts().learnAgain}{' '}
            <span class="secondary">
              {visit.needsNewBaseline
                ? texts().learnAgainBecause(visit.affectedParts)
                : texts().learnAgainHelp}
            </span>
          </span>
        </label>
      </ActionForm>
    </section>
  );
}

function PastVisit({ visit, detail, show }: { visit: VisitAnswer; detail: WellDetail; show: () => void }) {
  const { units } = useAppContext();
  const when = (ms: number): string => momentWords(ms, detail.well.timeZone, units, nowMs());
  return (
    <article class="visit">
      <h3>{when(visit.openedMs)}</h3>
      <p class="secondary">
        {texts().pastVisit({
          openedBy: visit.openedBy,
          closed: visit.closedMs === undefined ? undefined : when(visit.closedMs),
          newBaseline: visit.newBaseline,
        })}
      </p>
      <WorkList work={visit.work} photos={PhotoRow} />
      <button type="button" onClick={show}>
        {texts().beforeAndAfter}
      </button>
    </article>
  );
}

function VisitReport(props: { name: string; visit: string; detail: WellDetail; back: () => void }) {
  const { name, visit, detail, back } = props;
  const { source } = useAppContext();
  const report = useRequest(`report ${name} ${visit}`, () => source.get('report', { well: name, visit }));
  return (
    <>
      <p class="actions">
        <button type="button" onClick={back}>
          {texts().backToVisits}
        </button>
        <button type="button" onClick={() => window.print()}>
          {texts().print}
        </button>
      </p>
      <h1 class="unseen">{texts().reportTitle}</h1>
      <RequestView state={report.state} subject={texts().reportSubject} reload={report.reload}>
        {(value) => <ReportSheet well={name} timeZone={detail.well.timeZone} report={value} />}
      </RequestView>
    </>
  );
}
