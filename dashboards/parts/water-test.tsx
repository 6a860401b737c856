/** One water test: what stands out first, then each result as it was written, beside its limits with where they stand and from when. */
import type { WaterAnswer, WaterResultAnswer, WaterTestAnswer } from '../../shared/api/due.ts';
import { BY_CONDITION } from '../../shared/water/advice.ts';
import { LIMIT_WORDS, VERDICT_WORDS } from '../../shared/words/water-words.ts';
import { dayWords } from '../words/due.ts';
import {
  comparedWords,
  limitWords,
  resultWords,
  sourceWords,
  standingOut,
  standsOut,
} from '../../shared/words/water-amounts.ts';
import { Strike } from './check-history.tsx';
import { PaperLinks } from './photo-field.tsx';

export function WaterTestSheet(props: {
  test: WaterTestAnswer;
  value: WaterAnswer;
  well: string;
  changed: () => void;
}) {
  const { test, value, well, changed } = props;
  const out = standingOut(test.results);
  const from = [test.laboratory, test.place, test.why].filter((part) => part !== undefined).join(', ');
  return (
    <article class="sheet" aria-labelledby={`test-${test.id}`}>
      <h3 id={`test-${test.id}`}>Sample of {dayWords(test.on, value.nowMs)}</h3>
      {from !== '' && <p class="doing">{from}</p>}
      {out.length > 0 && <Advice results={out} nowMs={value.nowMs} />}
      <div class="table stacked">
        <table>
          <thead>
            <tr>
              <th scope="col">Analyte</th>
              <th scope="col">As written</th>
              <th scope="col">That is</th>
              <th scope="col">Beside published limits</th>
            </tr>
          </thead>
          <tbody>
            {test.results.map((result) => (
              <Row key={result.analyte + result.written} result={result} />
            ))}
          </tbody>
        </table>
      </div>
      <Sources results={test.results} />
      {test.text !== undefined && <p>{test.text}</p>}
      <p class="doing">
        {test.by !== undefined && `Written down by ${test.by}. `}
        <PaperLinks papers={test.papers} />
      </p>
      <Strike well={well} id={test.id} changed={changed} />
    </article>
  );
}

function Advice({ results, nowMs }: { results: readonly WaterResultAnswer[]; nowMs: number }) {
  return (
    <div class="advice" role="note">
      {results.map(({ name, advice, compared, unit }) => (
        <div key={name}>
          <p>
            <strong>{advice?.says ?? compared.map((one) => comparedWords(one, unit)).join(' ')}</strong>
            {advice?.againOn !== undefined && ` Next sample: ${dayWords(advice.againOn, nowMs)}.`}
          </p>
          {advice && advice.cautions.length > 0 && (
            <ul class="cautions">
              {advice.cautions.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          )}
        </div>
      ))}
    </div>
  );
}

function Row({ result }: { result: WaterResultAnswer }) {
  const { analyte, name, written, word, remark, odd, compared, unit } = result;
  return (
    <tr class={standsOut(result) ? 'stands-out' : undefined}>
      <th scope="row">
        {name}
        {analyte.toLowerCase() !== name.toLowerCase() && <span class="doing"> ({analyte})</span>}
      </th>
      <td data-name="As written">{written}</td>
      <td data-name="That is">
        {resultWords(result)}
        {word !== undefined && `, ${word}`}
        {remark !== undefined && <span class="doing"> ({remark})</span>}
        {odd !== undefined && <strong> {odd}</strong>}
      </td>
      <td data-name="Beside published limits">
        {compared.length === 0
          ? 'No limit is kept here.'
          : compared.map((one) => (
              <p key={one.limit.kind}>
                {comparedWords(one, unit)}
                {one.whenDrawn &&
                  ` When it was drawn ${limitWords(one.whenDrawn.limit, unit)} applied: ${VERDICT_WORDS[one.whenDrawn.verdict]}.`}
              </p>
            ))}
      </td>
    </tr>
  );
}

/** Where each limit stands and from when: long, and needed by whoever argues with it. */
function Sources({ results }: { results: readonly WaterResultAnswer[] }) {
  const rows = results.flatMap(({ name, unit, compared }) =>
    compared.map(({ limit }) => ({ key: `${name} ${limit.kind}`, name, unit, limit })),
  );
  if (rows.length === 0) return null;
  return (
    <details class="more">
      <summary>Which limits, what they are for, and from when</summary>
      <dl class="reasons">
        {rows.map(({ key, name, unit, limit }) => (
          <div key={key}>
            <dt>
              {name}: {LIMIT_WORDS[limit.kind].name.toLowerCase()} {limitWords(limit, unit)},{' '}
              {LIMIT_WORDS[limit.kind].means}
            </dt>
            <dd>{sourceWords(limit)}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** Occasions to ask for more than the four of every year. */
export function AskMore() {
  return (
    <details class="more">
      <summary>When to test for more, and for what</summary>
      <dl class="reasons">
        {BY_CONDITION.map(([condition, ask]) => (
          <div key={condition}>
            <dt>{condition}</dt>
            <dd>{ask}</dd>
          </div>
        ))}
      </dl>
      <p class="doing">
        EPA, questions and answers on private wells. With small children, somebody pregnant or nursing, or old
        people in the house: more often. The health department knows what lies in the ground there.
      </p>
    </details>
  );
}
