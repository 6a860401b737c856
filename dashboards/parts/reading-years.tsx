/** Readings of each thing over the years against the pinned one: a table with then, now and the difference, and a small drawing on one scale. */
import type { ReadingGroupAnswer, ReadingRowAnswer } from '../../shared/api/readings.ts';
import { dateWords } from '../../shared/api/time-words.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { readingWords } from '../../shared/words/reading-words.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { PhotoRow } from './photo-row.tsx';
import { TellForm, textOf } from './tell-form.tsx';

export interface ReadingYearsProps {
  well: string;
  groups: readonly ReadingGroupAnswer[];
  timeZone: string;
  changed: () => void;
}

export function ReadingYears({ well, groups, timeZone, changed }: ReadingYearsProps) {
  const { source } = useSurroundings();
  if (groups.length === 0) return <p class="said">None yet.</p>;
  return (
    <>
      {groups.map((group) => (
        <Group key={keyOf(group)} group={group} timeZone={timeZone} />
      ))}
      {source.live && (
        <details class="more">
          <summary>One of them is wrong: strike it out</summary>
          <Strike well={well} groups={groups} timeZone={timeZone} changed={changed} />
        </details>
      )}
    </>
  );
}

function keyOf({ what, pump, where }: ReadingGroupAnswer): string {
  return [what, pump, where].join('/');
}

function titleOf({ what, pump, where }: ReadingGroupAnswer): string {
  const name = readingWords(what)?.title ?? what;
  const more = [where, pump === undefined || pump === 'p1' ? undefined : `pump ${pump.slice(1)}`];
  return [name, ...more.filter((word) => word !== undefined)].join(', ');
}

interface Named {
  say: (si: number) => string;
  /** A difference with its sign in words. */
  apart: (si: number, from: number) => string;
}

function namer(what: string, units: UnitSystem): Named {
  const words = readingWords(what);
  const say = (si: number): string => words?.say(si, units) ?? String(si);
  const apart = (by: number, from: number): string => {
    const size = say(Math.abs(by));
    if (size.startsWith('0 ')) return 'the same';
    const percent = from === 0 ? 0 : Math.round(Math.abs(by / from) * 100);
    const share = percent === 0 ? '' : ` (${percent} %)`;
    return `${size} ${by > 0 ? 'more' : 'less'}${share}`;
  };
  return { say, apart };
}

function Group({ group, timeZone }: { group: ReadingGroupAnswer; timeZone: string }) {
  const { units } = useSurroundings();
  const { rows, now, pinnedId } = group;
  const { say, apart } = namer(group.what, units);
  const pinned = rows.find(({ id }) => id === pinnedId);
  const title = titleOf(group);
  const day = (ms: number): string => dateWords(ms, timeZone, nowMs());
  return (
    <section class="reading-group">
      <h3>{title}</h3>
      {pinned && (
        <p>
          Pinned {say(pinned.si)} on {day(pinned.atMs)}
          {pinned.by !== undefined && ` by ${pinned.by}`}.
          {now && ` Now ${say(now.si)} (last ${now.n} runs): ${apart(now.si - pinned.si, pinned.si)}.`}
        </p>
      )}
      {!pinned && now && (
        <p>
          The sensors show {say(now.si)} now, in the last {now.n} runs.
        </p>
      )}
      <YearsDrawing group={group} title={title} say={say} timeZone={timeZone} />
      <div class="table">
        <table class="stacked">
          <thead>
            <tr>
              <th scope="col">Day</th>
              <th scope="col">Value</th>
              <th scope="col">Against the pinned</th>
              <th scope="col">By and with</th>
            </tr>
          </thead>
          <tbody>
            {rows.toReversed().map((row) => (
              <tr key={row.id}>
                <th scope="row">{day(row.atMs)}</th>
                <td data-name="Value">
                  {say(row.si)}
                  {row.pinned && <strong>, pinned</strong>}
                </td>
                <td data-name="Against the pinned">
                  {row.apart === undefined || !pinned ? '' : apart(row.apart, pinned.si)}
                </td>
                <td data-name="By and with">
                  {withWords(row)}
                  <PhotoRow hashes={row.papers} name={title} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function withWords(row: ReadingRowAnswer): string {
  const from = row.from === 'sensors' ? 'from the sensors' : undefined;
  return [row.by, row.with, from, row.text].filter((word) => word !== undefined).join(', ');
}

const WIDTH = 320;
const HEIGHT = 74;
const EDGE = 8;

/** Two readings or more, along time; the pinned value as a dashed line, the sensors' present as a ring at the right edge. */
function YearsDrawing(props: {
  group: ReadingGroupAnswer;
  title: string;
  say: (si: number) => string;
  timeZone: string;
}) {
  const { group, title, say, timeZone } = props;
  const { rows, now, pinnedId } = group;
  if (rows.length + (now ? 1 : 0) < 2) return null;
  const first = rows[0]?.atMs ?? 0;
  const last = now ? nowMs() : (rows.at(-1)?.atMs ?? 0);
  const values = [...rows.map(({ si }) => si), ...(now ? [now.si] : [])];
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  // A tenth of the value fills the drawing at least: noise shall not look like news.
  const half = Math.max((Math.max(...values) - Math.min(...values)) * 0.6, Math.abs(middle) * 0.05, 1e-9);
  const x = (ms: number): number => EDGE + ((ms - first) / Math.max(1, last - first)) * (WIDTH - 2 * EDGE);
  const y = (si: number): number => 8 + ((middle + half - si) / (2 * half)) * (HEIGHT - 32);
  const pinned = rows.find(({ id }) => id === pinnedId);
  return (
    <svg
      class="years"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`${title} over time, as in the table`}
    >
      {pinned && <path class="years-pinned" d={`M${EDGE} ${y(pinned.si)}H${WIDTH - EDGE}`} />}
      {rows.map((row) => (
        <circle
          key={row.id}
          class={row.id === pinnedId ? 'years-dot is-pinned' : 'years-dot'}
          cx={x(row.atMs)}
          cy={y(row.si)}
          r={row.id === pinnedId ? 5 : 3.5}
        />
      ))}
      {now && <circle class="years-now" cx={x(last)} cy={y(now.si)} r={4.5} />}
      <text x={EDGE} y={HEIGHT - 4}>
        {dateWords(first, timeZone, nowMs())}
      </text>
      <text x={WIDTH - EDGE} y={HEIGHT - 4} text-anchor="end">
        {now ? `now ${say(now.si)}` : dateWords(last, timeZone, nowMs())}
      </text>
    </svg>
  );
}

function Strike({ well, groups, timeZone, changed }: ReadingYearsProps) {
  const { units } = useSurroundings();
  return (
    <TellForm
      class="card-form"
      button="Strike it out"
      tell={(to, fields, who) => {
        const text = textOf(fields, 'text');
        const entry = { kind: 'struck', replaces: textOf(fields, 'id'), ...(text && { text }) };
        return to.tell('writeEntry', { well }, { entry, ...who });
      }}
      done={changed}
    >
      <label class="field">
        Which
        <select name="id">
          {groups.flatMap((group) =>
            group.rows.toReversed().map((row) => (
              <option key={row.id} value={row.id}>
                {titleOf(group)}, {dateWords(row.atMs, timeZone, nowMs())}:{' '}
                {namer(group.what, units).say(row.si)}
              </option>
            )),
          )}
        </select>
      </label>
      <label class="field">
        Why <input type="text" name="text" maxLength={2000} />
      </label>
    </TellForm>
  );
}
