/**
 * One water test: what stands out first, then each result as it was written, beside its limits with
 * where they stand and from when.
 */
import type { WaterAnswer, WaterResultAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import { TESTS_BY_CONDITION } from '../../../shared/water/advice.ts';
import { LIMIT_WORDS, VERDICT_WORDS } from '../../../shared/text/en/water-words.ts';
import { dayWords } from '../../words/due.ts';
import {
  comparedText,
  limitText,
  resultText,
  sourceText,
  notableResults,
  isNotable,
} from '../../../shared/text/en/water-text.ts';
import { VoidEntry } from '../../ui/check-history.tsx';
import { DocumentLinks } from '../../ui/photo-field.tsx';

export function WaterTestSheet(props: {
  test: WaterTestAnswer;
  value: WaterAnswer;
  well: string;
  changed: () => void;
}) {
  const { test, value, well, changed } = props;
  const exceeded = notableResults(test.results);
  const from = [test.laboratory, test.place, test.why].filter((part) => part !== undefined).join(', ');
  return (
    <article class="sheet" aria-labelledby={`test-${test.id}`}>
      <h3 id={`test-${test.id}`}>Sample of {dayWords(test.sampleDate, value.nowMs)}</h3>
      {from !== '' && <p class="secondary">{from}</p>}
      {exceeded.length > 0 && <Advice results={exceeded} nowMs={value.nowMs} />}
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
      <p class="secondary">
        {test.by !== undefined && `Written down by ${test.by}. `}
        <DocumentLinks documents={test.documents} />
      </p>
      <VoidEntry well={well} id={test.id} changed={changed} />
    </article>
  );
}

function Advice({ results, nowMs }: { results: readonly WaterResultAnswer[]; nowMs: number }) {
  return (
    <div class="advice" role="note">
      {results.map(({ name, advice, comparisons, unit }) => (
        <div key={name}>
          <p>
            <strong>{advice?.text ?? comparisons.map((one) => comparedText(one, unit)).join(' ')}</strong>
            {advice?.retestDate !== undefined && ` Next sample: ${dayWords(advice.retestDate, nowMs)}.`}
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
  const { analyte, name, written, hardnessClass, remark, plausibilityQuestion, comparisons, unit } = result;
  return (
    <tr class={isNotable(result) ? 'stands-out' : undefined}>
      <th scope="row">
        {name}
        {analyte.toLowerCase() !== name.toLowerCase() && <span class="secondary"> ({analyte})</span>}
      </th>
      <td data-name="As written">{written}</td>
      <td data-name="That is">
        {resultText(result)}
        {hardnessClass !== undefined && `, ${hardnessClass}`}
        {remark !== undefined && <span class="secondary"> ({remark})</span>}
        {plausibilityQuestion !== undefined && <strong> {plausibilityQuestion}</strong>}
      </td>
      <td data-name="Beside published limits">
        {comparisons.length === 0
          ? 'No limit is kept here.'
          : comparisons.map((one) => (
              <p key={one.limit.kind}>
                {comparedText(one, unit)}
                {one.atSampling &&
                  ` When it was drawn ${limitText(one.atSampling.limit, unit)} applied: ${VERDICT_WORDS[one.atSampling.verdict]}.`}
              </p>
            ))}
      </td>
    </tr>
  );
}

/** Where each limit stands and from when: long, and needed by whoever argues with it. */
function Sources({ results }: { results: readonly WaterResultAnswer[] }) {
  const rows = results.flatMap(({ name, unit, comparisons }) =>
    comparisons.map(({ limit }) => ({ key: `${name} ${limit.kind}`, name, unit, limit })),
  );
  if (rows.length === 0) return null;
  return (
    <details class="more">
      <summary>Which limits, what they are for, and from when</summary>
      <dl class="reasons">
        {rows.map(({ key, name, unit, limit }) => (
          <div key={key}>
            <dt>
              {name}: {LIMIT_WORDS[limit.kind].name.toLowerCase()} {limitText(limit, unit)},{' '}
              {LIMIT_WORDS[limit.kind].means}
            </dt>
            <dd>{sourceText(limit)}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** Occasions to ask for more than the four of every year. */
export function MoreTests() {
  return (
    <details class="more">
      <summary>When to test for more, and for what</summary>
      <dl class="reasons">
        {TESTS_BY_CONDITION.map(([condition, ask]) => (
          <div key={condition}>
            <dt>{condition}</dt>
            <dd>{ask}</dd>
          </div>
        ))}
      </dl>
      <p class="secondary">
        EPA, questions and answers on private wells. With small children, somebody pregnant or nursing, or old
        people in the house: more often. The health department knows what lies in the ground there.
      </p>
    </details>
  );
}
