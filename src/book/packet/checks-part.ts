/** Checks that were done, newest first, and how they come round where somebody planned it otherwise than usual. */
import { DUE_WORDS, isDueKind, OUTCOME_WORDS } from '../../../shared/words/due-words.ts';
import { plansOf } from '../due-plans.ts';
import { dayOf, entriesOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { nameOf, valueWords } from './plain-words.ts';

export function checksPart(context: Context): Markup {
  const plans = plansOf(context.entries);
  const titleOf = (check: string): string =>
    plans.get(check)?.title ?? (isDueKind(check) ? DUE_WORDS[check].title : nameOf(check));
  const done = entriesOf(context, 'check').map(({ atMs, by, body }) => [
    dayOf(context, atMs),
    titleOf(valueWords(body['check'])),
    outcomeWords(body['outcome']),
    [valueWords(body['value']), body['left'] === undefined ? '' : `left at ${valueWords(body['left'])}`]
      .filter((words) => words !== '')
      .join(', '),
    valueWords(body['text']),
    by,
  ]);
  const planned = entriesOf(context, 'check-plan').map(
    ({ madeMs, by, body: { check, title: _title, ...rest } }) => [
      titleOf(valueWords(check)),
      valueWords(rest),
      dayOf(context, madeMs),
      by,
    ],
  );
  if (done.length + planned.length === 0) return html`<p>None was written down.</p>`;
  return html`${table(['When', 'Check', 'How it was', 'Value', 'Remark', 'By'], done)}
  ${
    planned.length > 0 &&
    html`<h3>Planned otherwise than usual</h3>
      ${table(['Check', 'How', 'Since', 'By'], planned)}`
  }`;
}

function outcomeWords(outcome: unknown): string {
  const words: Readonly<Record<string, string>> = OUTCOME_WORDS;
  const key = valueWords(outcome);
  return words[key] ?? key;
}
