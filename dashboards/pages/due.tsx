/** What is due on all wells: for a firm's week, and for a farm with several. By well, the one that waited longest first. */
import { useState } from 'preact/hooks';
import type { DueRowAnswer } from '../../shared/api/due.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { Said } from '../parts/said.tsx';
import { bookAddress, wellAddress } from '../page-of.ts';
import { dueWords, targetWords } from '../words/due.ts';
import { countWords, nameWords } from '../words/names.ts';
import { Subscribe } from './checks.tsx';

const DAY_MS = 86_400_000;
/** Days ahead, by their words. */
const SPANS = [
  [0, 'overdue and today'],
  [7, 'within a week'],
  [31, 'within a month'],
  [92, 'within three months'],
  [366, 'within a year'],
] as const;

export function DuePage() {
  const { source } = useSurroundings();
  const [days, setDays] = useState<number>(31);
  const { state, again } = useAsked(`due ${days}`, () =>
    source.ask('due', { until: localDate(nowMs() + days * DAY_MS, 'UTC') }),
  );
  return (
    <>
      <h1>What is due</h1>
      <fieldset class="choices">
        <legend>Show</legend>
        {SPANS.map(([span, words]) => (
          <label key={span}>
            <input type="radio" name="span" checked={days === span} onChange={() => setDays(span)} />
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
      <Said state={state} what="what is due" again={again}>
        {(value) => <Due value={value} />}
      </Said>
      <Subscribe />
    </>
  );
}

function Due({ value }: { value: Answer<'due'> }) {
  const [wanted, setWanted] = useState('');
  const plain = wanted.trim().toLowerCase();
  const rows = value.due.filter((row) =>
    `${nameWords(row.well)} ${nameWords(row.site ?? '')} ${row.title}`.toLowerCase().includes(plain),
  );
  const wells = byWell(rows);
  const late = rows.filter(({ state }) => state === 'overdue').length;
  if (value.due.length === 0)
    return <p class="said">Nothing, on {countWords(value.wells, 'well', 'wells')}.</p>;
  return (
    <>
      <p class="lead">
        {countWords(rows.length, 'check', 'checks')} on {countWords(wells.length, 'well', 'wells')} of{' '}
        {value.wells}, {late === 0 ? 'none' : late} of them overdue.
      </p>
      {value.wells > 5 && (
        <p class="tell">
          <label>
            Find a well, a site or a check{' '}
            <input type="text" value={wanted} onInput={(event) => setWanted(event.currentTarget.value)} />
          </label>
        </p>
      )}
      {wells.map(({ well, site, checks }) => (
        <WellDue key={well} well={well} site={site} checks={checks} nowMs={value.nowMs} />
      ))}
    </>
  );
}

interface WellRows {
  well: string;
  site: string | undefined;
  checks: DueRowAnswer[];
}

/** They come by day: so the first row of a well is its most pressing, and wells come in that order. */
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
  const { units } = useSurroundings();
  return (
    <section class="well-due" aria-labelledby={`due-${well}`}>
      <h2 id={`due-${well}`}>
        <a href={bookAddress(well, 'checks')}>{nameWords(well)}</a>{' '}
        {site !== undefined && <span class="place">{nameWords(site)}</span>}
      </h2>
      <ul class="checks">
        {checks.map((row) => {
          const target = row.target?.kpa === undefined ? undefined : targetWords(row.target, units);
          return (
            <li key={row.check} class={`is-${row.state}`}>
              <p>
                <strong>{row.title}</strong> <span class="when">{dueWords(row, now)}</span>
              </p>
              <p class="doing">
                {row.because[0]} {target !== undefined && `Target ${target}`}
              </p>
            </li>
          );
        })}
      </ul>
      <p class="unseen">
        <a href={wellAddress(well)}>The well itself</a>
      </p>
    </section>
  );
}
