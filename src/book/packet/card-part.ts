/** The card as it was written last, and every change of it with who and when. */
import { facts, html, table, type Markup } from './markup.ts';
import { dayOf, momentOf, type Context } from './context.ts';
import { leaves, nameOf, valueWords } from './plain-words.ts';
import type { ActRow } from '../../card/act-row.ts';
import { cardIn, lastCard } from './record.ts';

export function cardPart(context: Context): Markup {
  const last = lastCard(context.record);
  if (!last) return html`<p>No card was ever written for this well.</p> `;
  const { act, card } = last;
  return html`<p class="soft">
      As written on ${dayOf(context, act.atMs)}${byWords(act.by)}. Every value is what somebody wrote; what
      was measured stands further down. What is not here was not written.
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
  return html`${facts(alone.map(([key, value]) => [nameOf(key), valueWords(value)] as const))}
  ${parts.map(
    ([key, value]) =>
      html`<h3>${nameOf(key)}</h3>
        ${facts(leaves(value).map(([path, words]) => [pathWords(path), words] as const))}`,
  )}`;
}

function pathWords(path: readonly string[]): string {
  return path.map((key, i) => (i === 0 ? nameOf(key) : nameOf(key).toLowerCase())).join(', ');
}

function changes(context: Context): Markup {
  const acts = context.record.acts.filter((act) => act.kind === 'card-changed');
  const rows = acts.flatMap((act, i) => {
    const changed = changedLines(acts[i - 1], act);
    return changed.length === 0
      ? []
      : [[momentOf(context, act.atMs), act.by, changed.map((line) => html`${line}<br />`)]];
  });
  return rows.length < 2
    ? html``
    : html`<h3>Changes of the card</h3>
        ${table(['When', 'By', 'What'], rows.toReversed())}`;
}

/** "Switch, cut in: 40 psi, was 30 psi". */
function changedLines(before: ActRow | undefined, act: ActRow): string[] {
  if (!before) return ['written for the first time'];
  const was = new Map(leaves(cardIn(before)).map(([path, words]) => [pathWords(path), words]));
  const is = new Map(leaves(cardIn(act)).map(([path, words]) => [pathWords(path), words]));
  return [
    ...[...is]
      .filter(([name, words]) => was.get(name) !== words)
      .map(([name, words]) => `${name}: ${words}${was.has(name) ? `, was ${was.get(name)}` : ''}`),
    ...[...was].filter(([name]) => !is.has(name)).map(([name, words]) => `${name}: taken out, was ${words}`),
  ];
}
