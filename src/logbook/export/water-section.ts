/**
 * Water tests as the laboratory wrote them, each result beside the limits that held on the last day
 * that the record knows of.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { comparedText } from '../../../shared/text/en/water-text.ts';
import { YARDSTICK_NOTE } from '../../../shared/text/en/water-words.ts';
import { compareResult } from '../../../shared/water/compare.ts';
import { waterTests, type WaterTest } from '../entries/water-tests.ts';
import { formatDay, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { formatValue } from './key-names.ts';

export function waterSection(context: ExportContext): Markup {
  const tests = waterTests(context.entries, context.timeZone).toReversed();
  if (tests.length === 0) return html`<p>None was written down.</p>`;
  return html`<p class="soft">
      ${YARDSTICK_NOTE} The laboratory and the health department interpret results; this is arithmetic.
    </p>
    ${tests.map((one) => testMarkup(context, one))}`;
}

function testMarkup(context: ExportContext, { entry, sampleDate, results }: WaterTest): Markup {
  const { atMs, by, body } = entry;
  const details = ['laboratory', 'place', 'why', 'text']
    .map((key) => formatValue(body[key]))
    .filter((words) => words !== '');
  const today = localDate(context.newestMs, context.timeZone);
  return html`<h3>${formatDay(context, atMs)}</h3>
    <p>${[...details, ...(by === undefined ? [] : [`written down by ${by}`])].join('; ')}</p>
    ${table(
      ['What', 'Result', 'Beside published limits'],
      results.map(({ written, result }) => [
        result.name,
        [written.value, written.unit].filter(Boolean).join(' '),
        html`${compareResult(result, { drawnOn: sampleDate, today }).map((one) => html`${comparedText(one, result.unit)}<br />`)}`,
      ]),
    )}`;
}
