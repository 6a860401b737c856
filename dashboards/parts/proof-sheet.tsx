/** The proof of one visit, fit for one printed page: what was done, and each measure before and after as words, figures and a small drawing. */
import { Fragment } from 'preact';
import { momentWords } from '../../shared/api/time-words.ts';
import type { ProofLineAnswer } from '../../shared/api/visits.ts';
import type { Answer } from '../../shared/api/routes.ts';
import {
  MEASURE_NOTES,
  MEASURE_TITLES,
  PROOF_CAVEAT,
  proofStage,
  proofWords,
  sayMeasure,
  sideWords,
  type ProofStage,
} from '../../shared/words/proof.ts';
import { useSurroundings } from '../data/settings.ts';
import { nameWords, unbroken } from '../../shared/words/names.ts';
import { ProofPair } from './proof-pair.tsx';
import { WorkList } from './work-list.tsx';

export interface ProofSheetProps {
  well: string;
  timeZone: string;
  proof: Answer<'proof'>;
}

export function ProofSheet({ well, timeZone, proof }: ProofSheetProps) {
  const { units } = useSurroundings();
  const { visit, pumps, nowMs, days } = proof;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs);
  const stage = proofStage(proof);
  return (
    <article class="proof" aria-labelledby="proof">
      <h2 id="proof">Before and after, {nameWords(well)}</h2>
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
          <div class="proof-lines">
            {lines.map((line) => (
              <ProofLine key={line.measure} line={line} stage={stage} />
            ))}
          </div>
        </Fragment>
      ))}
      <p class="doing">
        Runs and whole days up to {days} days on either side, or to the next visit. Spread is 1.4826 × the
        median absolute deviation. {PROOF_CAVEAT}
      </p>
    </article>
  );
}

function ProofLine({ line, stage }: { line: ProofLineAnswer; stage: ProofStage }) {
  const { units } = useSurroundings();
  const { measure, before, after, usual } = line;
  const note = MEASURE_NOTES[measure];
  return (
    <section class={`proof-line is-${line.verdict}`}>
      <h4>{MEASURE_TITLES[measure]}</h4>
      <p>{unbroken(proofWords(line, stage, units))}</p>
      <ProofPair line={line} units={units} />
      <p class="doing">
        Before: {sideWords(line, before, units)}. After: {sideWords(line, after, units)}.
        {usual !== undefined && ` Usual before: ${sayMeasure(measure, usual, units)}.`}
        {note !== undefined && ` From ${note}.`}
      </p>
    </section>
  );
}
