/** Water tests as the laboratory wrote them, each result beside the limits that held on the last day that the record knows of. */
import { localDate } from '../../../shared/api/time-words.ts';
import { comparedWords } from '../../../shared/words/water-amounts.ts';
import { YARDSTICK_WORDS } from '../../../shared/words/water-words.ts';
import { compareResult } from '../../../shared/water/judge.ts';
import { waterTests, type WaterTest } from '../water-tests.ts';
import { dayOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { valueWords } from './plain-words.ts';

export function waterPart(context: Context): Markup {
  const tests = waterTests(context.entries, context.timeZone).toReversed();
  if (tests.length === 0) return html`<p>None was written down.</p>`;
  return html`<p class="soft">
      ${YARDSTICK_WORDS} The laboratory and the health department interpret results; this is arithmetic.
    </p>
    ${tests.map((one) => testMarkup(context, one))}`;
}

function testMarkup(context: Context, { entry, on, results }: WaterTest): Markup {
  const { atMs, by, body } = entry;
  const said = ['laboratory', 'place', 'why', 'text']
    .map((key) => valueWords(body[key]))
    .filter((words) => words !== '');
  const today = localDate(context.untilMs, context.timeZone);
  return html`<h3>${dayOf(context, atMs)}</h3>
    <p>${[...said, ...(by === undefined ? [] : [`written down by ${by}`])].join('; ')}</p>
    ${table(
      ['What', 'Result', 'Beside published limits'],
      results.map(({ written, result }) => [
        result.name,
        [written.value, written.unit].filter(Boolean).join(' '),
        html`${compareResult(result, { drawnOn: on, today }).map((one) => html`${comparedWords(one, result.unit)}<br />`)}`,
      ]),
    )}`;
}
