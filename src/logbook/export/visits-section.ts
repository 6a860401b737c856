/**
 * Visits with the work that was done in them and what was measured before and after; then work that
 * was done outside of any.
 */
import {
  MEASURE_TITLES,
  REPORT_CAVEAT,
  reportLineText,
  type ReportStage,
} from '../../../shared/text/en/checks/before-after-report.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Entry } from '../entries/entry.ts';
import { REPORT_DAYS, beforeAfterReport, reportWindows, type ReportLine } from '../visits/before-after.ts';
import { visitsOf, workInVisit, type Visit } from '../visits/visits.ts';
import { formatDay, entriesOf, formatMoment, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { humanizeKey, formatValue } from './key-names.ts';

export function visitsSection(context: ExportContext): Markup {
  const visits = visitsOf(context.record.acts).toReversed();
  const within = new Set(visits.flatMap((visit) => workInVisit(visit, context.entries)).map(({ id }) => id));
  const outside = entriesOf(context, 'work').filter(({ id }) => !within.has(id));
  if (visits.length + outside.length === 0) return html`<p>None was written down.</p>`;
  return html`${visits.length > 0 && html`<p class="soft">${REPORT_CAVEAT}</p>`}
  ${visits.map((visit) => visitMarkup(context, visit))}
  ${
    outside.length > 0 &&
    html`<h3>Work outside of a visit</h3>
      ${workTable(context, outside)}`
  }`;
}

function visitMarkup(context: ExportContext, visit: Visit): Markup {
  const work = entriesOf(context, 'work').filter(({ id }) =>
    workInVisit(visit, context.entries).some((one) => one.id === id),
  );
  const by = visit.openedBy === undefined ? '' : ` by ${visit.openedBy}`;
  const end =
    visit.closedMs === undefined
      ? 'Open when this was written.'
      : `Closed ${formatMoment(context, visit.closedMs)}.`;
  return html`<h3>Visit of ${formatDay(context, visit.openedMs)}${by}</h3>
    <p>${end}${visit.newBaseline && ' What is normal was learnt anew from then on.'}</p>
    ${work.length === 0 ? html`<p>No work was written down.</p>` : workTable(context, work)}
    ${reportMarkup(context, visit)}`;
}

function workTable(context: ExportContext, work: readonly Entry[]): Markup {
  return table(
    ['When', 'What was done', 'Parts', 'By'],
    work.map(({ atMs, by, body }) => [
      formatDay(context, atMs),
      [formatValue(body['done']), formatValue(body['text'])].filter((words) => words !== '').join('. '),
      formatValue(body['parts']),
      body['doneBy'] === undefined ? by : formatValue(body['doneBy']),
    ]),
  );
}

/** Only measures of which something can be said. */
function reportMarkup(context: ExportContext, visit: Visit): Markup {
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
    beforeAfterReport({ ...question, pump })
      .filter(hasVerdict)
      .map((line) => [
        pumps.length > 1
          ? `${humanizeKey(pump)}, ${MEASURE_TITLES[line.measure].toLowerCase()}`
          : MEASURE_TITLES[line.measure],
        reportLineText(line, visitStage(context, visit), units),
      ]),
  );
  return table(['Measured', `${REPORT_DAYS} days before and after, at most`], rows);
}

function hasVerdict({ verdict }: ReportLine): boolean {
  return verdict === 'changed' || verdict === 'within-spread' || verdict === 'no-baseline';
}

function visitStage({ newestMs }: ExportContext, visit: Visit): ReportStage {
  const after = reportWindows(visit).after?.[1];
  return { isOpen: visit.closedMs === undefined, isOver: after !== undefined && newestMs > after + DAY_MS };
}
