/**
 * The year as one ribbon: run time of each day in layers, with what was told beneath it. A slider moves along the days, so that fingers,
 * mice and keys alike can read any of them.
 */
import { useState } from 'preact/hooks';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import type { DayAnswer } from '../../shared/api/history.ts';
import { dateWords, localDate } from '../../shared/api/time-words.ts';
import { sayDuration } from '../../shared/words/format.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { RibbonDrawing } from './ribbon.tsx';
import { usualOf } from './ribbon-path.ts';
import { Said } from './said.tsx';

const DAY_MS = 86_400_000;
const DAYS = 365;
const BOX = { width: 1_095, height: 96 };

export function YearStrip({ detail, alarms }: { detail: WellDetail; alarms: readonly AlarmAnswer[] }) {
  const { source } = useSurroundings();
  const { well } = detail.well;
  const { state, again } = useAsked(`year ${well}`, async () => {
    const to = Math.round(nowMs());
    return (await source.ask('days', { well, from: to - (DAYS + 1) * DAY_MS, to })).days;
  });
  return (
    <Said state={state} what="the year" again={again}>
      {(days) => <Strip days={days} detail={detail} alarms={alarms} />}
    </Said>
  );
}

/** The dates of the year up to yesterday. Noon to noon is 24 h in UTC, whatever the zone's clocks do. */
function yearDates(timeZone: string): string[] {
  const noonMs = Date.parse(`${localDate(nowMs(), timeZone)}T12:00:00Z`);
  return Array.from({ length: DAYS }, (_, i) =>
    new Date(noonMs - (DAYS - i) * DAY_MS).toISOString().slice(0, 10),
  );
}

function Strip({
  days,
  detail,
  alarms,
}: {
  days: readonly DayAnswer[];
  detail: WellDetail;
  alarms: readonly AlarmAnswer[];
}) {
  const { timeZone } = detail.well;
  const dates = yearDates(timeZone);
  const ran = ranByDate(days);
  const values = dates.map((date) => ran.get(date) ?? null);
  const known = values.filter((value) => value !== null);
  const [at, setAt] = useState(DAYS - 1);
  if (known.length === 0) return <p class="said">The first whole day will stand here tomorrow.</p>;
  const usual = detail.well.usualRanS ?? usualOf(values);
  const date = dates[at] ?? '';
  const onDay = alarms.filter((alarm) => standsOn(alarm, date, timeZone));
  const words = dayWords(date, values[at] ?? null, usual, timeZone, onDay);
  return (
    <figure class="year">
      <RibbonDrawing
        days={values}
        usual={usual}
        box={BOX}
        label={`Run time a day over a year, ${known.length} days known: usually ${sayDuration(usual)}, at most ${sayDuration(Math.max(...known))}.`}
      />
      <Told alarms={alarms} dates={dates} timeZone={timeZone} />
      <Months dates={dates} />
      <input
        type="range"
        min={0}
        max={DAYS - 1}
        value={at}
        aria-label="Day of the year strip"
        aria-valuetext={words}
        onInput={(event) => setAt(Number(event.currentTarget.value))}
      />
      <p class="day-said" aria-hidden="true">
        {words}
      </p>
      <figcaption>
        <span class="swatch layer-0" /> up to the usual day <span class="swatch layer-1" /> up to half more{' '}
        <span class="swatch layer-2" /> up to 2½ times <span class="swatch layer-3" /> beyond. A thread: not
        known.
      </figcaption>
    </figure>
  );
}

function ranByDate(days: readonly DayAnswer[]): Map<string, number> {
  const ran = new Map<string, number>();
  for (const { date, ranS } of days) if (ranS !== undefined) ran.set(date, (ran.get(date) ?? 0) + ranS);
  return ran;
}

function standsOn(alarm: AlarmAnswer, date: string, timeZone: string): boolean {
  const until = alarm.clearedMs ?? alarm.withdrawnMs ?? Infinity;
  return (
    localDate(alarm.sinceMs, timeZone) <= date && (until === Infinity || localDate(until, timeZone) >= date)
  );
}

function dayWords(
  date: string,
  ranS: number | null,
  usual: number,
  timeZone: string,
  alarms: readonly AlarmAnswer[],
): string {
  const when = dateWords(Date.parse(`${date}T18:00:00Z`), timeZone, nowMs());
  const ran = ranS === null ? 'not known' : `ran ${sayDuration(ranS)} (usual ${sayDuration(usual)})`;
  return [`${when}: ${ran}`, ...alarms.map((alarm) => alarmTitle(alarm.alarm).toLowerCase())].join('; ');
}

/** A bar for each alarm, from when it began to when it ended; its word stands with the day's. Higher priority is drawn heavier. */
function Told({
  alarms,
  dates,
  timeZone,
}: {
  alarms: readonly AlarmAnswer[];
  dates: readonly string[];
  timeZone: string;
}) {
  const step = BOX.width / DAYS;
  const place = (ms: number): number => dates.findIndex((date) => date >= localDate(ms, timeZone));
  return (
    <svg class="told" viewBox={`0 0 ${BOX.width} 12`} preserveAspectRatio="none" aria-hidden="true">
      {alarms.map(({ id, sinceMs, clearedMs, withdrawnMs, priority }) => {
        const end = clearedMs ?? withdrawnMs;
        const from = place(sinceMs) < 0 ? DAYS - 1 : place(sinceMs);
        const to = end === undefined || place(end) < 0 ? DAYS : place(end) + 1;
        if (end !== undefined && localDate(end, timeZone) < (dates[0] ?? '')) return null;
        return (
          <path
            key={id}
            class={`told-${priority}`}
            d={`M${from * step} 6H${Math.max(to, from + 1) * step}`}
          />
        );
      })}
    </svg>
  );
}

function Months({ dates }: { dates: readonly string[] }) {
  const firsts = dates.map((date, i) => ({ date, i })).filter(({ date }) => date.endsWith('-01'));
  const word = (date: string): string =>
    new Date(`${date}T12:00:00Z`).toLocaleString('en-US', { month: 'short', timeZone: 'UTC' });
  return (
    <div class="months" aria-hidden="true">
      {firsts.map(({ date, i }) => (
        <span key={date} style={{ left: `${(100 * i) / DAYS}%` }}>
          {word(date)}
        </span>
      ))}
    </div>
  );
}
