/** The card as it was written last, and every change of it with who and when. */
import { facts, html, table, type Markup } from './markup.ts';
import { formatDay, formatMoment, type ExportContext } from './context.ts';
import { flattenValues, humanizeKey, formatValue } from './key-names.ts';
import type { ActRow } from '../../core/domain/act-row.ts';
import { cardOfAct, lastCard } from './record.ts';

export function cardSection(context: ExportContext): Markup {
  const last = lastCard(context.record);
  if (!last) return html`<p>No card was ever written for this well.</p> `;
  const { act, card } = last;
  return html`<p class="soft">
      As written on ${formatDay(context, act.atMs)}${byWords(act.by)}. Every value is what somebody wrote;
      what was measured stands further down. What is not here was not written.
    </p>
    ${groups(card)}${changes(context)}`;
}

function byWords(by: string | undefined): string {
  return by === undefined ? '' : ` by ${by}`;
}

/** What stands alone first, then each part of the card under its name. */
function groups(card: Record<string, unknown>): Markup {
  const isPart = (value: unknown): boolean =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  const alone = Object.entries(card).filter(([, value]) => !isPart(value));
  const parts = Object.entries(card).filter(([, value]) => isPart(value));
  return html`${facts(alone.map(([key, value]) => [humanizeKey(key), formatValue(value)] as const))}
  ${parts.map(
    ([key, value]) =>
      html`<h3>${humanizeKey(key)}</h3>
        ${facts(flattenValues(value).map(([path, words]) => [pathWords(path), words] as const))}`,
  )}`;
}

function pathWords(path: readonly string[]): string {
  return path.map((key, i) => (i === 0 ? humanizeKey(key) : humanizeKey(key).toLowerCase())).join(', ');
}

function changes(context: ExportContext): Markup {
  const acts = context.record.acts.filter((act) => act.kind === 'card-changed');
  const rows = acts.flatMap((act, i) => {
    const changed = changedLines(acts[i - 1], act);
    return changed.length === 0
      ? []
      : [[formatMoment(context, act.atMs), act.by, changed.map((line) => html`${line}<br />`)]];
  });
  return rows.length < 2
    ? html``
    : html`<h3>Changes of the card</h3>
        ${table(['When', 'By', 'What'], rows.toReversed())}`;
}

/** "Switch, cut in: 40 psi, was 30 psi". */
function changedLines(before: ActRow | undefined, act: ActRow): string[] {
  if (!before) return ['written for the first time'];
  const was = new Map(flattenValues(cardOfAct(before)).map(([path, words]) => [pathWords(path), words]));
  const is = new Map(flattenValues(cardOfAct(act)).map(([path, words]) => [pathWords(path), words]));
  return [
    ...[...is]
      .filter(([name, words]) => was.get(name) !== words)
      .map(([name, words]) => `${name}: ${words}${was.has(name) ? `, was ${was.get(name)}` : ''}`),
    ...[...was].filter(([name]) => !is.has(name)).map(([name, words]) => `${name}: taken out, was ${words}`),
  ];
}
