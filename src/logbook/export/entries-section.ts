/**
 * Checks, water tests, work, visits and notes: entries and acts of a kind as a table, newest first,
 * each value as it was written.
 */
import type { EntryKind } from '../../../shared/entries/entry-fields.ts';
import { formatDay, entriesOf, formatMoment, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { humanizeKey, formatValue } from './key-names.ts';

/** Entries of these kinds, or a sentence that there are none. */
export function entriesSection(context: ExportContext, kinds: EntryKind[], noneWords: string): Markup {
  const rows = entriesOf(context, ...kinds).map(({ atMs, by, body }) => [
    formatDay(context, atMs),
    bodyMarkup(body),
    by,
  ]);
  return rows.length === 0 ? html`<p>${noneWords}</p> ` : table(['When', 'What', 'By'], rows);
}

/** A line a key. A list of things has a line each. Papers are said in their own part. */
function bodyMarkup(body: Record<string, unknown>): Markup {
  const lines = Object.entries(body)
    .filter(([key]) => key !== 'papers')
    .flatMap(([key, value]) =>
      Array.isArray(value) && value.some((one) => typeof one === 'object')
        ? value.map((one) => formatValue(one))
        : [`${humanizeKey(key)}: ${formatValue(value)}`],
    );
  return html`${lines.map((line, i) => html`${i > 0 && html`<br />`}${line}`)}`;
}

/** Acts that change how a well is watched, but for cards, which have their own part. */
const ACT_TITLES: Record<string, string> = {
  'visit-opened': 'A visit was opened',
  'visit-closed': 'The visit was closed',
  pinned: 'Normal was pinned',
  calibrated: 'A sensor was calibrated',
  'out-of-service': 'Taken out of service',
  'back-in-service': 'Put back into service',
  'laid-up': 'Laid up',
  expected: 'Expected',
  shelved: 'An alarm was put aside',
};

export function actsSection(context: ExportContext): Markup {
  const rows = context.record.acts
    .filter((act) => act.kind in ACT_TITLES)
    .toReversed()
    .map((act) => [formatMoment(context, act.atMs), ACT_TITLES[act.kind], actDetails(act.body), act.by]);
  return rows.length === 0
    ? html`<p>Nothing was done that changed how the well is watched.</p> `
    : table(['When', 'What', '', 'By'], rows);
}

function actDetails(body: unknown): string {
  if (typeof body !== 'object' || body === null) return '';
  return formatValue(
    Object.fromEntries(Object.entries(body).filter(([key]) => key !== 'kind' && key !== 'well')),
  );
}
