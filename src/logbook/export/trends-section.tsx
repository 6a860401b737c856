/** The measured days as lines: what changes slowly shows here and nowhere else. */
import { localDate, dateWords } from '../../../shared/text/en/time-words.ts';
import { drawTrend, type Trend } from '../../../shared/drawing/trend.ts';
import { toDisplayUnits } from '../../../shared/quantity/format-quantity.ts';
import type { DayEvent } from '../../../shared/api/events.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { DAY_MS, MINUTE_S } from '../../../shared/units/duration.ts';
import { DrawingView } from '../../../shared/view/drawing.tsx';
import { median } from '../../core/baseline/robust.ts';
import type { ExportContext } from './context.ts';

const TEXT = EXPORT_FILE_TEXT.trends;

type TrendSpec = Pick<Trend, 'title' | 'unit' | 'decimals' | 'fromZero'> & {
  valueOfDays: (days: readonly DayEvent[]) => number | null;
};

export function TrendsSection(context: ExportContext) {
  const dates = datesOf(context);
  const byDate = new Map<string, DayEvent[]>();
  for (const { event } of context.record.days)
    byDate.set(event.date, [...(byDate.get(event.date) ?? []), event]);
  const ends = { from: formatDate(dates[0]), to: formatDate(dates.at(-1)) };
  const drawings = [...dayTrends(context), ...levelTrends(context)]
    .map(({ valueOfDays, ...line }) =>
      drawTrend({ ...line, ...ends, values: dates.map((date) => valueOfDays(byDate.get(date) ?? [])) }),
    )
    .filter((drawing) => drawing !== undefined);
  if (drawings.length === 0) return <p>{TEXT.none}</p>;
  return (
    <>
      <p class="secondary">{TEXT.intro}</p>
      <div class="day-trends">
        {drawings.map((drawing) => (
          <DrawingView key={drawing.label} drawing={drawing} class="day-trend" />
        ))}
      </div>
    </>
  );
}

/** Every date from the first known day to the last. */
function datesOf({ record }: ExportContext): string[] {
  const [first, last] = [record.days[0]?.event.date, record.days.at(-1)?.event.date];
  if (first === undefined || last === undefined) return [];
  const noon = Date.parse(`${first}T12:00:00Z`);
  const count = Math.round((Date.parse(`${last}T12:00:00Z`) - noon) / DAY_MS) + 1;
  return Array.from({ length: count }, (_, i) => new Date(noon + i * DAY_MS).toISOString().slice(0, 10));
}

function formatDate(date: string | undefined): string {
  return date === undefined ? '' : dateWords(Date.parse(`${date}T12:00:00Z`), 'UTC', 0);
}

function sumOf(days: readonly DayEvent[], key: 'cycles' | 'ranS' | 'usedL'): number | null {
  const known = days.map((day) => day[key]).filter((value) => value !== undefined);
  return known.length === 0 ? null : known.reduce((a, b) => a + b, 0);
}

function dayTrends({ units }: ExportContext): TrendSpec[] {
  const water = toDisplayUnits(0, 'volume', units).unit;
  const inWater = (litres: number | null | undefined): number | null =>
    litres === null || litres === undefined ? null : toDisplayUnits(litres, 'volume', units).value;
  return [
    {
      title: TEXT.cycles,
      unit: '',
      decimals: 0,
      fromZero: true,
      valueOfDays: (days) => sumOf(days, 'cycles'),
    },
    {
      title: TEXT.ranS,
      unit: 'min',
      decimals: 0,
      fromZero: true,
      valueOfDays: (days) => {
        const ranS = sumOf(days, 'ranS');
        return ranS === null ? null : ranS / MINUTE_S;
      },
    },
    {
      title: TEXT.amps,
      unit: 'A',
      decimals: 1,
      fromZero: false,
      valueOfDays: (days) => days.find((day) => day.ampsMedian !== undefined)?.ampsMedian ?? null,
    },
    {
      title: TEXT.used,
      unit: water,
      decimals: 0,
      fromZero: true,
      valueOfDays: (days) => inWater(sumOf(days, 'usedL')),
    },
    {
      title: TEXT.leak,
      unit: TEXT.perDay(water),
      decimals: 1,
      fromZero: true,
      valueOfDays: (days) => inWater(days.find((day) => day.leakLPerDay !== undefined)?.leakLPerDay),
    },
  ];
}

/** Medians of a day's cycles, by the local date of their start. */
function levelTrends({ record, units, timeZone }: ExportContext): TrendSpec[] {
  const { unit } = toDisplayUnits(0, 'pressure', units);
  const line = (title: string, key: 'cutInKpa' | 'cutOutKpa'): TrendSpec => {
    const byDate = new Map<string, number[]>();
    for (const { event, startedMs } of record.cycles) {
      const kpa = event[key];
      if (kpa === undefined) continue;
      const date = localDate(startedMs, timeZone);
      const list = byDate.get(date);
      if (list) list.push(kpa);
      else byDate.set(date, [kpa]);
    }
    return {
      title,
      unit,
      decimals: 1,
      fromZero: false,
      valueOfDays: ([day]) => {
        const kpa = median(byDate.get(day?.date ?? '') ?? []);
        return kpa === undefined ? null : toDisplayUnits(kpa, 'pressure', units).value;
      },
    };
  };
  return [line(TEXT.cutIn, 'cutInKpa'), line(TEXT.cutOut, 'cutOutKpa')];
}
