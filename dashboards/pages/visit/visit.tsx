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
      <RequestView state={detail.state} subject="this well" reload={detail.reload}>
        {(value) => (
          <RequestView state={visits.state} subject="its visits" reload={visits.reload}>
            {(answer) => (
              <Visits detail={value} visits={answer.visits} changed={reload} showReport={setShown} />
            )}
          </RequestView>
        )}
      </RequestView>
      <section aria-labelledby="parts-list">
        <h2 id="parts-list">What to bring</h2>
        <RequestView state={partsList.state} subject="what to bring" reload={partsList.reload}>
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
        <h2 id="past-visits">Visits so far</h2>
        {past.length === 0 && <p class="status">None yet.</p>}
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
      <h2 id="open-visit">Open a visit</h2>
      <p>
        While a visit is open nothing is raised and nothing is learnt. Open it when you begin, and close it
        when the work is done.
      </p>
      <p class="secondary">{CAUTIONS['lock-out']}</p>
      <ActionForm
        button="Open a visit"
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
      <h2 id="at-work">A visit is open</h2>
      <p>
        Since {momentWords(visit.openedMs, timeZone, units, nowMs())}
        {visit.openedBy !== undefined && `, by ${visit.openedBy}`}. Alarms are suppressed until you close it.
      </p>
      <p class="secondary">
        {CAUTIONS['lock-out']} {CAUTIONS.electrician}
      </p>
      <h3>Work so far</h3>
      <WorkList work={visit.work} photos={PhotoRow} />
      <details class="more" open={visit.work.length === 0}>
        <summary>Write down work and parts</summary>
        <WorkForm well={well} visit={visit.id} changed={changed} />
      </details>
      <h3>Close the visit</h3>
      <p>
        It clears what stands. The proof compares what runs and days showed before with those that follow;
        after some runs it is there.
      </p>
      <ActionForm
        key={String(visit.needsNewBaseline)}
        button="Close the visit"
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
            Learn anew what is normal{' '}
            <span class="secondary">
              {visit.needsNewBaseline
                ? `(the work touched ${visit.affectedParts.join(', ')}: what was normal before is no measure any more)`
                : '(for work on pump, motor, tank or switch; none is written down)'}
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
        {[
          visit.openedBy === undefined ? '' : `By ${visit.openedBy}`,
          visit.closedMs === undefined ? '' : `closed ${when(visit.closedMs)}`,
          visit.newBaseline ? 'what is normal was learnt anew' : '',
        ]
          .filter((word) => word !== '')
          .join('; ')}
        .
      </p>
      <WorkList work={visit.work} photos={PhotoRow} />
      <button type="button" onClick={show}>
        Before and after
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
          Back to the visits
        </button>
        <button type="button" onClick={() => window.print()}>
          Print this page
        </button>
      </p>
      <h1 class="unseen">Before and after a visit</h1>
      <RequestView state={report.state} subject="the proof" reload={report.reload}>
        {(value) => <ReportSheet well={name} timeZone={detail.well.timeZone} report={value} />}
      </RequestView>
    </>
  );
}
