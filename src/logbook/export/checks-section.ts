/**
 * Checks that were done, newest first, and how they come round where somebody planned it otherwise
 * than usual.
 */
import { DUE_WORDS, isDueKind, OUTCOME_TEXT } from '../../../shared/text/en/checks/due-words.ts';
import { latestPlans } from '../due/check-plans.ts';
import { formatDay, entriesOf, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { humanizeKey, formatValue } from './key-names.ts';

export function checksSection(context: ExportContext): Markup {
  const plans = latestPlans(context.entries);
  const titleOf = (check: string): string =>
    plans.get(check)?.title ?? (isDueKind(check) ? DUE_WORDS[check].title : humanizeKey(check));
  const done = entriesOf(context, 'check').map(({ atMs, by, body }) => [
    formatDay(context, atMs),
    titleOf(formatValue(body['check'])),
    outcomeWords(body['outcome']),
    [formatValue(body['value']), body['left'] === undefined ? '' : `left at ${formatValue(body['left'])}`]
      .filter((words) => words !== '')
      .join(', '),
    formatValue(body['text']),
    by,
  ]);
  const planned = entriesOf(context, 'check-plan').map(
    ({ createdMs, by, body: { check, title: _title, ...rest } }) => [
      titleOf(formatValue(check)),
      formatValue(rest),
      formatDay(context, createdMs),
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
  const words: Readonly<Record<string, string>> = OUTCOME_TEXT;
  const key = formatValue(outcome);
  return words[key] ?? key;
}
