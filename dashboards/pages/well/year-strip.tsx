/**
 * The year as one ribbon: run time of each day in layers, with what was told beneath it. A slider
 * moves along the days, so that fingers, mice and keys alike can read any of them.
 */
import { useState } from 'preact/hooks';
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import type { DayAnswer } from '../../../shared/api/history.ts';
import { dateWords, localDate } from '../../../shared/text/en/time-words.ts';
import { formatDuration } from '../../../shared/text/en/format.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { RibbonDrawing } from '../../charts/ribbon.tsx';
import { medianDay } from '../../charts/ribbon-path.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

const DAYS = 365;
const BOX = { width: 1_095, height: 96 };

export function YearStrip({ detail, alarms }: { detail: WellDetail; alarms: readonly AlarmAnswer[] }) {
  const { source } = useAppContext();
  const { well } = detail.well;
  const { state, reload } = useRequest(`year ${well}`, async () => {
    const to = Math.round(nowMs());
    return (await source.get('days', { well, from: to - (DAYS + 1) * DAY_MS, to })).days;
  });
  return (
    <RequestView state={state} subject={texts().yearSubject} reload={reload}>
      {(days) => <YearRibbon days={days} detail={detail} alarms={alarms} />}
    </RequestView>
  );
}

/**
 * The dates of the year up to yesterday. Noon to noon is 24 h in UTC, whatever the zone's clocks
 * do.
 */
function yearDates(timeZone: string): string[] {
  const noonMs = Date.parse(`${localDate(nowMs(), timeZone)}T12:00:00Z`);
  return Array.from({ length: DAYS }, (_, i) =>
    new Date(noonMs - (DAYS - i) * DAY_MS).toISOString().slice(0, 10),
  );
}

function YearRibbon({
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
  if (known.length === 0) return <p class="status">{texts().firstDayTomorrow}</p>;
  const normal = detail.well.normalRanS ?? medianDay(values);
  const date = dates[at] ?? '';
  const onDay = alarms.filter((alarm) => isActiveOn(alarm, date, timeZone));
  const words = dayWords(date, values[at] ?? null, normal, timeZone, onDay);
  return (
    <figure class="year">
      <RibbonDrawing
        days={values}
        normal={normal}
        box={BOX}
        label={texts().yearOf(known.length, formatDuration(normal), formatDuration(Math.max(...known)))}
      />
      <AlarmBars alarms={alarms} dates={dates} timeZone={timeZone} />
      <MonthAxis dates={dates} />
      <input
        type="range"
        min={0}
        max={DAYS - 1}
        value={at}
        aria-label={texts().dayOfYear}
        aria-valuetext={words}
        onInput={(event) => setAt(Number(event.currentTarget.value))}
      />
      <p class="day-status" aria-hidden="true">
        {words}
      </p>
      <figcaption>
        <span class="swatch layer-0" /> {texts().upToNormal} <span class="swatch layer-1" />{' '}
        {texts().upToHalfMore} <span class="swatch layer-2" /> {texts().upTo2Half}{' '}
        <span class="swatch layer-3" /> {texts().beyond}
      </figcaption>
    </figure>
  );
}

function ranByDate(days: readonly DayAnswer[]): Map<string, number> {
  const ran = new Map<string, number>();
  for (const { date, ranS } of days) if (ranS !== undefined) ran.set(date, (ran.get(date) ?? 0) + ranS);
  return ran;
}

function isActiveOn(alarm: AlarmAnswer, date: string, timeZone: string): boolean {
  const until = alarm.clearedMs ?? alarm.withdrawnMs ?? Infinity;
  return (
    localDate(alarm.sinceMs, timeZone) <= date && (until === Infinity || localDate(until, timeZone) >= date)
  );
}

function dayWords(
  date: string,
  ranS: number | null,
  normal: number,
  timeZone: string,
  alarms: readonly AlarmAnswer[],
): string {
  const when = dateWords(Date.parse(`${date}T18:00:00Z`), timeZone, nowMs());
  const ran =
    ranS === null ? texts().notKnown : texts().ranNormally(formatDuration(ranS), formatDuration(normal));
  return [`${when}: ${ran}`, ...alarms.map((alarm) => alarmTitle(alarm.alarm).toLowerCase())].join('; ');
}

/**
 * A bar for each alarm, from when it began to when it ended; its word stands with the day's. Higher
 * priority is drawn heavier.
 */
function AlarmBars({
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
    <svg class="alarm-strip" viewBox={`0 0 ${BOX.width} 12`} preserveAspectRatio="none" aria-hidden="true">
      {alarms.map(({ id, sinceMs, clearedMs, withdrawnMs, priority }) => {
        const end = clearedMs ?? withdrawnMs;
        const from = place(sinceMs) < 0 ? DAYS - 1 : place(sinceMs);
        const to = end === undefined || place(end) < 0 ? DAYS : place(end) + 1;
        if (end !== undefined && localDate(end, timeZone) < (dates[0] ?? '')) return null;
        return (
          <path
            key={id}
            class={`alarm-strip-${priority}`}
            d={`M${from * step} 6H${Math.max(to, from + 1) * step}`}
          />
        );
      })}
    </svg>
  );
}

function MonthAxis({ dates }: { dates: readonly string[] }) {
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
