/** Visits with the work that was done in them and what was measured before and after; then work that was done outside of any. */
import { MEASURE_TITLES, PROOF_CAVEAT, proofWords } from '../../../shared/words/proof.ts';
import type { Entry } from '../entry.ts';
import { PROOF_DAYS, proofOf, proofWindows, type ProofLine } from '../proof.ts';
import { visitsOf, workOf, type Visit } from '../visits.ts';
import { dayOf, entriesOf, momentOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { nameOf, valueWords } from './plain-words.ts';

const DAY_MS = 86_400_000;

export function visitsPart(context: Context): Markup {
  const visits = visitsOf(context.record.acts).toReversed();
  const within = new Set(visits.flatMap((visit) => workOf(visit, context.entries)).map(({ id }) => id));
  const outside = entriesOf(context, 'work').filter(({ id }) => !within.has(id));
  if (visits.length + outside.length === 0) return html`<p>None was written down.</p>`;
  return html`${visits.length > 0 && html`<p class="soft">${PROOF_CAVEAT}</p>`}
  ${visits.map((visit) => visitMarkup(context, visit))}
  ${
    outside.length > 0 &&
    html`<h3>Work outside of a visit</h3>
      ${workTable(context, outside)}`
  }`;
}

function visitMarkup(context: Context, visit: Visit): Markup {
  const work = entriesOf(context, 'work').filter(({ id }) =>
    workOf(visit, context.entries).some((one) => one.id === id),
  );
  const by = visit.openedBy === undefined ? '' : ` by ${visit.openedBy}`;
  const end =
    visit.closedMs === undefined
      ? 'Open when this was written.'
      : `Closed ${momentOf(context, visit.closedMs)}.`;
  return html`<h3>Visit of ${dayOf(context, visit.openedMs)}${by}</h3>
    <p>${end}${visit.newBaseline && ' What is normal was learnt anew from then on.'}</p>
    ${work.length === 0 ? html`<p>No work was written down.</p>` : workTable(context, work)}
    ${proofMarkup(context, visit)}`;
}

function workTable(context: Context, work: readonly Entry[]): Markup {
  return table(
    ['When', 'What was done', 'Parts', 'By'],
    work.map(({ atMs, by, body }) => [
      dayOf(context, atMs),
      [valueWords(body['done']), valueWords(body['text'])].filter((words) => words !== '').join('. '),
      valueWords(body['parts']),
      body['doneBy'] === undefined ? by : valueWords(body['doneBy']),
    ]),
  );
}

/** Only measures of which something can be said. */
function proofMarkup(context: Context, visit: Visit): Markup {
  const { record, card, timeZone, units } = context;
  const pumps = card?.pumps.map(({ id }) => id) ?? ['p1'];
  const question = {
    visit,
    timeZone,
    cycles: record.cycles.map(({ event }) => event),
    days: record.days.map(({ event }) => event),
    baselines: record.baselines.map(({ event }) => event),
  };
  const rows = pumps.flatMap((pump) =>
    proofOf({ ...question, pump })
      .filter(isTold)
      .map((line) => [
        pumps.length > 1
          ? `${nameOf(pump)}, ${MEASURE_TITLES[line.measure].toLowerCase()}`
          : MEASURE_TITLES[line.measure],
        proofWords(line, stageOf(context, visit), units),
      ]),
  );
  return table(['Measured', `${PROOF_DAYS} days before and after, at most`], rows);
}

function isTold({ verdict }: ProofLine): boolean {
  return verdict === 'changed' || verdict === 'within-spread' || verdict === 'no-before';
}

function stageOf({ untilMs }: Context, visit: Visit): { open: boolean; over: boolean } {
  const after = proofWindows(visit).after?.[1];
  return { open: visit.closedMs === undefined, over: after !== undefined && untilMs > after + DAY_MS };
}
