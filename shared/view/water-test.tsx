/**
 * One water test: what stands out first, then each result as it was written, beside its limits with
 * where they stand and from when.
 */
import type { ComponentChildren } from 'preact';
import type { WaterResultAnswer, WaterTestAnswer } from '../api/due.ts';
import { ELSEWHERE_NAMES, elsewhereText, STOCK_SOURCE, stockText } from '../text/en/water-elsewhere.ts';
import type { ElsewhereSource } from '../water/elsewhere-limits.ts';
import { LIMIT_WORDS, VERDICT_WORDS } from '../text/en/water-words.ts';
import {
  comparedText,
  limitText,
  resultText,
  sourceText,
  notableResults,
  isNotable,
} from '../text/en/water-text.ts';
import { Table, type TableRow } from './table.tsx';
import { texts } from './texts.ts';

export function WaterTestSheet(props: {
  test: WaterTestAnswer;
  /** An ISO date as people say it. */
  day: (date: string) => string;
  documents?: ComponentChildren;
  children?: ComponentChildren;
}) {
  const { test, day, documents, children } = props;
  const exceeded = notableResults(test.results);
  const from = [test.laboratory, test.place, test.why].filter((part) => part !== undefined).join(', ');
  return (
    <article class="sheet" aria-labelledby={`test-${test.id}`}>
      <h3 id={`test-${test.id}`}>{texts().sampleOf(day(test.sampleDate))}</h3>
      {from !== '' && <p class="secondary">{from}</p>}
      {exceeded.length > 0 && <Advice results={exceeded} day={day} />}
      <Table
        head={[texts().analyte, texts().asReported, texts().inOurUnits, texts().limits]}
        rows={test.results.map(resultRow)}
      />
      <Elsewhere results={test.results} />
      <Sources results={test.results} />
      {test.text !== undefined && <p>{test.text}</p>}
      <p class="secondary">
        {test.by !== undefined && `${texts().recordedBy(test.by)} `}
        {documents}
      </p>
      {children}
    </article>
  );
}

function Advice(props: { results: readonly WaterResultAnswer[]; day: (date: string) => string }) {
  const { results, day } = props;
  return (
    <div class="advice" role="note">
      {results.map(({ name, advice, stock, comparisons, unit }) => (
        <div key={name}>
          <p>
            <strong>
              {advice?.text ??
                exceeded(comparisons)
                  .map((one) => comparedText(one, unit))
                  .join(' ')}
            </strong>
            {advice?.retestDate !== undefined && ` ${texts().nextSample(day(advice.retestDate))}`}
          </p>
          {stock !== undefined && <p>{stockText(name, stock)}</p>}
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

function resultRow(result: WaterResultAnswer): TableRow {
  const { analyte, name, written, hardnessClass, remark, plausibilityQuestion, comparisons, unit } = result;
  return {
    key: analyte + written,
    class: isNotable(result) ? 'stands-out' : undefined,
    cells: [
      <>
        {name}
        {analyte.toLowerCase() !== name.toLowerCase() && <span class="secondary"> ({analyte})</span>}
      </>,
      written,
      <>
        {resultText(result)}
        {hardnessClass !== undefined && `, ${hardnessClass}`}
        {remark !== undefined && <span class="secondary"> ({remark})</span>}
        {plausibilityQuestion !== undefined && <strong> {plausibilityQuestion}</strong>}
      </>,
      comparisons.length === 0
        ? texts().noLimit
        : comparisons.map((one) => (
            <p key={one.limit.kind}>
              {comparedText(one, unit)}
              {one.atSampling &&
                ` ${texts().limitAtSampling(limitText(one.atSampling.limit, unit), VERDICT_WORDS[one.atSampling.verdict])}`}
            </p>
          )),
    ],
  };
}

function exceeded(comparisons: WaterResultAnswer['comparisons']): WaterResultAnswer['comparisons'] {
  return comparisons.filter(({ verdict }) => verdict === 'over' || verdict === 'below-range');
}

/** What is published elsewhere, for whoever lives there or asks. */
function Elsewhere({ results }: { results: readonly WaterResultAnswer[] }) {
  const rows = results.filter(({ elsewhere }) => elsewhere.length > 0);
  if (rows.length === 0) return null;
  const cell = ({ elsewhere, unit }: WaterResultAnswer, from: ElsewhereSource): string =>
    elsewhere
      .filter(({ limit }) => limit.from === from)
      .map((one) => elsewhereText(one, unit))
      .join(' ');
  return (
    <details class="more">
      <summary>{texts().limitsElsewhere}</summary>
      <Table
        head={[texts().analyte, texts().inOurUnits, ELSEWHERE_NAMES.who, ELSEWHERE_NAMES.eu]}
        rows={rows.map((result) => ({
          key: result.analyte + result.written,
          cells: [result.name, resultText(result), cell(result, 'who'), cell(result, 'eu')],
        }))}
      />
    </details>
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
      <summary>{texts().limitSources}</summary>
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
      {results.some(({ stock }) => stock !== undefined) && <p>{STOCK_SOURCE}</p>}
    </details>
  );
}
