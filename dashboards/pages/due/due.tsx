/**
 * What is due on all wells: for a firm's week, and for a farm with several. By well, the one that
 * waited longest first.
 */
import { useState } from 'preact/hooks';
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { Subscribe } from '../../ui/subscribe.tsx';
import { logbookUrl } from '../../page-url.ts';
import { datesInWords, dayWords, dueWords, downtimeWords } from '../../words/due.ts';
import { lowerFirst, nameText } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

/** Days ahead. */
const TIME_SPANS = [0, 7, 31, 92, 366] as const;

export function DuePage() {
  const { source } = useAppContext();
  const [days, setDays] = useState<number>(31);
  const { state, reload } = useRequest(`due ${days}`, () => source.get('due', { days }));
  return (
    <>
      <h1>{texts().whatIsDue}</h1>
      <fieldset class="choices">
        <legend>{texts().show}</legend>
        {TIME_SPANS.map((span) => (
          <label key={span}>
            <input type="radio" name="span" checked={days === span} onChange={() => setDays(span)} />
            <span>{texts().timeSpans[span]}</span>
          </label>
        ))}
      </fieldset>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Due value={value} />}
      </RequestView>
      <Subscribe />
    </>
  );
}

function Due({ value }: { value: Answer<'due'> }) {
  const [query, setWanted] = useState('');
  const plain = query.trim().toLowerCase();
  const matching = (rows: readonly DueRowAnswer[]): DueRowAnswer[] =>
    rows.filter((row) =>
      `${nameText(row.well)} ${nameText(row.site ?? '')} ${row.title}`.toLowerCase().includes(plain),
    );
  const [rows, notRecorded, onHold] = [
    matching(value.due),
    matching(value.notRecorded),
    matching(value.onHold),
  ] as const;
  const wells = byWell(rows);
  const late = rows.filter(({ state }) => state === 'overdue').length;
  return (
    <>
      {value.due.length === 0 ? (
        <p class="status">{texts().nothingDated(value.wells)}</p>
      ) : (
        <p class="lead">
          {texts().dueChecks({ checks: rows.length, wells: wells.length, of: value.wells, late })}
        </p>
      )}
      {value.wells > 5 && (
        <p class="action-form">
          <label>
            {texts().find}{' '}
            <input type="text" value={query} onInput={(event) => setWanted(event.currentTarget.value)} />
          </label>
        </p>
      )}
      {wells.map(({ well, site, checks }) => (
        <WellDue key={well} well={well} site={site} checks={checks} nowMs={value.nowMs} />
      ))}
      <NotRecorded value={value} rows={notRecorded} />
      <OnHold rows={onHold} nowMs={value.nowMs} />
    </>
  );
}

/** Apart from what is due: nobody knows whether it is late. */
function NotRecorded({ value, rows }: { value: Answer<'due'>; rows: readonly DueRowAnswer[] }) {
  const { checks, wells } = value.notRecordedTotal;
  if (checks === 0) return null;
  return (
    <section aria-labelledby="not-recorded">
      <h2 id="not-recorded">{texts().notRecorded}</h2>
      <p>
        {texts().notRecordedHelp(checks, wells)}
        {rows.length < checks && ` ${texts().proposedHere(rows.length)}`}
      </p>
      <ul class="past-alarms">
        {byWell(rows).map(({ well, site, checks: open }) => (
          <li key={well}>
            <span class="when">{open[0]?.proposedDate && dayWords(open[0].proposedDate, value.nowMs)}</span>
            <div>
              <p>
                <WellLink well={well} site={site} />
              </p>
              <p class="secondary">{titlesOf(open)}.</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

function OnHold({ rows, nowMs: now }: { rows: readonly DueRowAnswer[]; nowMs: number }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="at-rest">
      <h2 id="at-rest">{texts().onHold}</h2>
      <ul class="past-alarms">
        {byWell(rows).map(({ well, site, checks }) => (
          <li key={well}>
            <span class="when">{checks[0] && downtimeWords(checks[0], now)}</span>
            <div>
              <p>
                <WellLink well={well} site={site} />
              </p>
              <p class="secondary">{titlesOf(checks)}.</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

function WellLink({ well, site }: { well: string; site: string | undefined }) {
  return (
    <>
      <a href={logbookUrl(well, 'checks')}>{nameText(well)}</a>{' '}
      {site !== undefined && <span class="place">{nameText(site)}</span>}
    </>
  );
}

function titlesOf(rows: readonly DueRowAnswer[]): string {
  return rows.map(({ title, custom }, at) => (at === 0 || custom ? title : lowerFirst(title))).join(', ');
}

interface WellRows {
  well: string;
  site: string | undefined;
  checks: DueRowAnswer[];
}

/**
 * They come by day: so the first row of a well is its most pressing, and wells come in that order.
 */
function byWell(rows: readonly DueRowAnswer[]): WellRows[] {
  const wells = new Map<string, WellRows>();
  for (const row of rows) {
    const found = wells.get(row.well);
    if (found) found.checks.push(row);
    else wells.set(row.well, { well: row.well, site: row.site, checks: [row] });
  }
  return [...wells.values()];
}

function WellDue({ well, site, checks, nowMs: now }: WellRows & { nowMs: number }) {
  const { units } = useAppContext();
  return (
    <section class="well-due" aria-labelledby={`due-${well}`}>
      <h2 id={`due-${well}`}>
        <WellLink well={well} site={site} />
      </h2>
      <ul class="past-alarms">
        {groupByReason(checks).map((rows) => (
          <li key={rows[0]?.check} class={`is-${rows[0]?.state}`}>
            <span class="when">{rows[0] && dueWords(rows[0], now)}</span>
            <div>
              <p>
                <strong>{rows.map((row, at) => titleWords(row, units, at)).join(', ')}</strong>
              </p>
              <p class="secondary">{datesInWords(firstSentence(rows[0]?.reasons[0] ?? ''), now)}</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

/**
 * The rest stands on the well's own page. A capital with a point, as in E. coli, ends no sentence.
 */
function firstSentence(text: string): string {
  return text.split(/(?<=[a-z0-9]\.)\s/)[0] ?? text;
}

/** Checks of one day for one reason are one line: that is one visit. */
function groupByReason(checks: readonly DueRowAnswer[]): DueRowAnswer[][] {
  const lines: DueRowAnswer[][] = [];
  for (const check of checks) {
    const line = lines.find(
      ([first]) => first?.dueDate === check.dueDate && first?.reasons[0] === check.reasons[0],
    );
    if (line) line.push(check);
    else lines.push([check]);
  }
  return lines;
}

function titleWords({ title, target, custom }: DueRowAnswer, units: UnitSystem, at: number): string {
  const name = at === 0 || custom ? title : lowerFirst(title);
  return target?.kpa === undefined
    ? name
    : texts().toTarget(name, formatQuantity(target.kpa, 'pressure', units));
}
