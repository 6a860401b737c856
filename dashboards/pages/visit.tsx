/** Visits to a well: what to bring before one, what was done in it, and what the readings showed before and after. */
import { useState } from 'preact/hooks';
import { momentWords } from '../../shared/api/time-words.ts';
import type { VisitAnswer } from '../../shared/api/visits.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { BringList } from '../parts/bring-list.tsx';
import { ProofSheet } from '../parts/proof-sheet.tsx';
import { Said } from '../parts/said.tsx';
import { TellForm } from '../parts/tell-form.tsx';
import { WorkForm } from '../parts/work-form.tsx';
import { WorkList } from '../parts/work-list.tsx';

export function VisitPage({ name }: { name: string }) {
  const { source, units } = useSurroundings();
  const detail = useAsked(`well ${name}`, () => source.ask('well', { well: name }));
  const visits = useAsked(`visits ${name}`, () => source.ask('visits', { well: name }));
  const bring = useAsked(`bring ${name}`, () => source.ask('bring', { well: name }));
  const [shown, setShown] = useState<string>();
  const again = (): void => {
    detail.again();
    visits.again();
  };
  if (shown !== undefined && detail.state.is === 'ready')
    return <Proof name={name} visit={shown} detail={detail.state.value} back={() => setShown(undefined)} />;
  return (
    <>
      <BookHead well={name} what="visit" />
      <Said state={detail.state} what="this well" again={detail.again}>
        {(value) => (
          <Said state={visits.state} what="its visits" again={visits.again}>
            {(kept) => <Visits detail={value} visits={kept.visits} changed={again} show={setShown} />}
          </Said>
        )}
      </Said>
      <section aria-labelledby="bring">
        <h2 id="bring">What to bring</h2>
        <Said state={bring.state} what="what to bring" again={bring.again}>
          {(value) => <BringList items={value[units]} />}
        </Said>
      </section>
    </>
  );
}

interface VisitsProps {
  detail: WellDetail;
  visits: readonly VisitAnswer[];
  changed: () => void;
  show: (visit: string) => void;
}

function Visits({ detail, visits, changed, show }: VisitsProps) {
  const open = visits.find(({ closedMs }) => closedMs === undefined);
  const past = visits.filter(({ closedMs }) => closedMs !== undefined);
  return (
    <>
      {open ? (
        <OpenVisit detail={detail} visit={open} changed={changed} closed={() => show(open.id)} />
      ) : (
        <NewVisit well={detail.well.well} changed={changed} />
      )}
      <section aria-labelledby="past-visits">
        <h2 id="past-visits">Visits so far</h2>
        {past.length === 0 && <p class="said">None yet.</p>}
        {past.map((visit) => (
          <PastVisit key={visit.id} visit={visit} detail={detail} show={() => show(visit.id)} />
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
      <p class="doing">{CAUTIONS['lock-out']}</p>
      <TellForm
        button="Open a visit"
        tell={(to, _fields, who) => to.tell('act', {}, { act: { kind: 'visit-opened', well }, ...who })}
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
  const { units } = useSurroundings();
  return (
    <section class="sheet" aria-labelledby="at-work">
      <h2 id="at-work">A visit is open</h2>
      <p>
        Since {momentWords(visit.openedMs, timeZone, units, nowMs())}
        {visit.openedBy !== undefined && `, by ${visit.openedBy}`}. Nothing is raised until it is closed.
      </p>
      <p class="doing">
        {CAUTIONS['lock-out']} {CAUTIONS.electrician}
      </p>
      <h3>Work so far</h3>
      <WorkList work={visit.work} />
      <details class="more" open={visit.work.length === 0}>
        <summary>Write down work and parts</summary>
        <WorkForm well={well} visit={visit.id} changed={changed} />
      </details>
      <h3>Close the visit</h3>
      <p>
        It clears what stands. The proof compares what runs and days showed before with those that follow;
        after some runs it is there.
      </p>
      <TellForm
        key={String(visit.asksNewBaseline)}
        button="Close the visit"
        tell={(to, fields, who) => {
          const anew = fields.get('anew') !== null;
          return to.tell(
            'act',
            {},
            {
              act: { kind: 'visit-closed', well, ...(anew && { newBaseline: true }) },
              ...who,
            },
          );
        }}
        done={() => {
          changed();
          closed();
        }}
      >
        <label class="tick">
          <input type="checkbox" name="anew" defaultChecked={visit.asksNewBaseline} />
          <span>
            Learn anew what is normal{' '}
            <span class="doing">
              {visit.asksNewBaseline
                ? `(the work touched ${visit.touched.join(', ')}: what was normal before is no measure any more)`
                : '(for work on pump, motor, tank or switch; none is written down)'}
            </span>
          </span>
        </label>
      </TellForm>
    </section>
  );
}

function PastVisit({ visit, detail, show }: { visit: VisitAnswer; detail: WellDetail; show: () => void }) {
  const { units } = useSurroundings();
  const when = (ms: number): string => momentWords(ms, detail.well.timeZone, units, nowMs());
  return (
    <article class="visit">
      <h3>{when(visit.openedMs)}</h3>
      <p class="doing">
        {[
          visit.openedBy === undefined ? '' : `By ${visit.openedBy}`,
          visit.closedMs === undefined ? '' : `closed ${when(visit.closedMs)}`,
          visit.newBaseline ? 'what is normal was learnt anew' : '',
        ]
          .filter((word) => word !== '')
          .join('; ')}
        .
      </p>
      <WorkList work={visit.work} />
      <button type="button" onClick={show}>
        Before and after
      </button>
    </article>
  );
}

function Proof(props: { name: string; visit: string; detail: WellDetail; back: () => void }) {
  const { name, visit, detail, back } = props;
  const { source } = useSurroundings();
  const proof = useAsked(`proof ${name} ${visit}`, () => source.ask('proof', { well: name, visit }));
  return (
    <>
      <p class="seen">
        <button type="button" onClick={back}>
          Back to the visits
        </button>
        <button type="button" onClick={() => window.print()}>
          Print this page
        </button>
      </p>
      <h1 class="unseen">Before and after a visit</h1>
      <Said state={proof.state} what="the proof" again={proof.again}>
        {(value) => <ProofSheet well={name} timeZone={detail.well.timeZone} proof={value} />}
      </Said>
    </>
  );
}
