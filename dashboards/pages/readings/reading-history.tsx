/**
 * Readings of each thing over the years against the pinned one: a table with then, now and the
 * difference, and a small drawing on one scale.
 */
import { Table } from '../../../shared/view/table.tsx';
import type { ReadingGroupAnswer, ReadingRowAnswer, WindingSetAnswer } from '../../../shared/api/readings.ts';
import { dateWords } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import {
  CAPACITOR_WORDS,
  judgementText,
  LEADS_WORDS,
  MOTOR_PLACE_WORDS,
  motorFactsText,
  windingSetText,
} from '../../../shared/text/en/checks/motor-readings.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { PhotoRow } from '../../ui/photo-row.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

export interface ReadingHistoryProps {
  well: string;
  groups: readonly ReadingGroupAnswer[];
  windings: readonly WindingSetAnswer[];
  timeZone: string;
  changed: () => void;
}

export function ReadingHistory({ well, groups, windings, timeZone, changed }: ReadingHistoryProps) {
  const { source } = useAppContext();
  if (groups.length === 0) return <p class="status">{texts().none}</p>;
  return (
    <>
      {windings.map((set) => (
        <p key={set.pump}>
          {windingSetText(set, set.wireOhm)} {judgementText(set.judgement)}
        </p>
      ))}
      {groups.map((group) => (
        <Group key={keyOf(group)} group={group} timeZone={timeZone} />
      ))}
      {source.live && (
        <details class="more">
          <summary>{texts().voidOne}</summary>
          <VoidReading well={well} groups={groups} timeZone={timeZone} changed={changed} />
        </details>
      )}
    </>
  );
}

function keyOf({ kind, pump, location, leads, motor, capacitor }: ReadingGroupAnswer): string {
  return [kind, pump, location, leads, motor, capacitor].join('/');
}

function titleOf({ kind, pump, location, leads, motor, capacitor }: ReadingGroupAnswer): string {
  const name = findReadingWords(kind)?.title ?? kind;
  const more = [
    leads && LEADS_WORDS[leads],
    motor && MOTOR_PLACE_WORDS[motor],
    capacitor && CAPACITOR_WORDS[capacitor],
    location,
    pump === undefined || pump === 'p1' ? undefined : texts().pumpName(pump.slice(1)),
  ];
  return [name, ...more.filter((word) => word !== undefined)].join(', ');
}

interface Formatters {
  format: (si: number) => string;
  /** A difference with its sign in words. */
  formatDifference: (si: number, from: number) => string;
}

function formattersFor(what: string, units: UnitSystem): Formatters {
  const words = findReadingWords(what);
  const format = (si: number): string => words?.format(si, units) ?? String(si);
  const formatDifference = (by: number, from: number): string => {
    const size = format(Math.abs(by));
    if (size.startsWith('0 ')) return texts().same;
    const percent = from === 0 ? 0 : Math.round(Math.abs(by / from) * 100);
    return by > 0 ? texts().more(size, percent) : texts().less(size, percent);
  };
  return { format, formatDifference };
}

function Group({ group, timeZone }: { group: ReadingGroupAnswer; timeZone: string }) {
  const { units } = useAppContext();
  const { rows, recent, pinnedId } = group;
  const { format, formatDifference } = formattersFor(group.kind, units);
  const pinned = rows.find(({ id }) => id === pinnedId);
  const title = titleOf(group);
  const day = (ms: number): string => dateWords(ms, timeZone, nowMs());
  return (
    <section class="reading-group">
      <h3>{title}</h3>
      {pinned && (
        <p>
          {texts().pinnedOn(format(pinned.si), day(pinned.atMs), pinned.by)}
          {recent &&
            ` ${texts().nowAgainst({ value: format(recent.si), runs: recent.count, difference: formatDifference(recent.si - pinned.si, pinned.si) })}`}
        </p>
      )}
      {!pinned && recent && <p>{texts().sensorsShow(format(recent.si), recent.count)}</p>}
      <ReadingChart group={group} title={title} format={format} timeZone={timeZone} />
      <Table
        head={[texts().day, texts().readValue, texts().comparedWithPinned, texts().byAndWith]}
        rows={rows.toReversed().map((row) => ({
          key: row.id,
          cells: [
            day(row.atMs),
            <>
              {format(row.si)}
              {row.pinned && <strong>{texts().pinned}</strong>}
              {row.motor && <p class="secondary">{motorFactsText(row.motor)}</p>}
            </>,
            row.difference === undefined || !pinned ? '' : formatDifference(row.difference, pinned.si),
            <>
              {withWords(row)}
              <PhotoRow hashes={row.documents} name={title} />
            </>,
          ],
        }))}
      />
    </section>
  );
}

function withWords(row: ReadingRowAnswer): string {
  const from = row.from === 'sensors' ? texts().fromSensors : undefined;
  return [row.by, row.instrument, from, row.text].filter((word) => word !== undefined).join(', ');
}

const WIDTH = 320;
const HEIGHT = 74;
const EDGE = 8;

/**
 * Two readings or more, along time; the pinned value as a dashed line, the sensors' present as a
 * ring at the right edge.
 */
function ReadingChart(props: {
  group: ReadingGroupAnswer;
  title: string;
  format: (si: number) => string;
  timeZone: string;
}) {
  const { group, title, format, timeZone } = props;
  const { rows, recent, pinnedId } = group;
  if (rows.length + (recent ? 1 : 0) < 2) return null;
  const first = rows[0]?.atMs ?? 0;
  const last = recent ? nowMs() : (rows.at(-1)?.atMs ?? 0);
  const values = [...rows.map(({ si }) => si), ...(recent ? [recent.si] : [])];
  const middle = (Math.min(...values) + Math.max(...values)) / 2;
  // A tenth of the value fills the drawing at least: noise shall not look like news.
  const half = Math.max((Math.max(...values) - Math.min(...values)) * 0.6, Math.abs(middle) * 0.05, 1e-9);
  const x = (ms: number): number => EDGE + ((ms - first) / Math.max(1, last - first)) * (WIDTH - 2 * EDGE);
  const y = (si: number): number => 8 + ((middle + half - si) / (2 * half)) * (HEIGHT - 32);
  const pinned = rows.find(({ id }) => id === pinnedId);
  return (
    <svg
      class="reading-chart"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={texts().overTime(title)}
    >
      {pinned && <path class="reading-chart-pinned" d={`M${EDGE} ${y(pinned.si)}H${WIDTH - EDGE}`} />}
      {rows.map((row) => (
        <circle
          key={row.id}
          class={row.id === pinnedId ? 'reading-chart-dot is-pinned' : 'reading-chart-dot'}
          cx={x(row.atMs)}
          cy={y(row.si)}
          r={row.id === pinnedId ? 5 : 3.5}
        />
      ))}
      {recent && <circle class="reading-chart-now" cx={x(last)} cy={y(recent.si)} r={4.5} />}
      <text x={EDGE} y={HEIGHT - 4}>
        {dateWords(first, timeZone, nowMs())}
      </text>
      <text x={WIDTH - EDGE} y={HEIGHT - 4} text-anchor="end">
        {recent ? texts().now(format(recent.si)) : dateWords(last, timeZone, nowMs())}
      </text>
    </svg>
  );
}

function VoidReading({ well, groups, timeZone, changed }: Omit<ReadingHistoryProps, 'windings'>) {
  const { units } = useAppContext();
  return (
    <ActionForm
      class="card-form"
      button={texts().void}
      submit={(to, fields, actor) => {
        const text = textOf(fields, 'text');
        const entry = { kind: 'struck', replaces: textOf(fields, 'id'), ...(text && { text }) };
        return to.post('writeEntry', { well }, { entry, ...actor });
      }}
      done={changed}
    >
      <label class="field">
        {texts().whichReading}
        <select name="id">
          {groups.flatMap((group) =>
            group.rows.toReversed().map((row) => (
              <option key={row.id} value={row.id}>
                {titleOf(group)}, {dateWords(row.atMs, timeZone, nowMs())}:{' '}
                {formattersFor(group.kind, units).format(row.si)}
              </option>
            )),
          )}
        </select>
      </label>
      <label class="field">
        {texts().reason} <input type="text" name="text" maxLength={2000} />
      </label>
    </ActionForm>
  );
}
