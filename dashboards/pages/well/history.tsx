/**
 * A pump's past over a week, a month or a year: amps, cut-in and cut-out, run time and cycles a
 * day.
 */
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { useState } from 'preact/hooks';
import type { CycleEvent } from '../../../shared/api/events.ts';
import type { DayAnswer } from '../../../shared/api/history.ts';
import type { PumpDetail, WellDetail } from '../../../shared/api/wells.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import type { DataSource } from '../../data/source.ts';
import { useRequest } from '../../data/use-request.ts';
import { Chart } from './chart.tsx';
import type { ChartLine, ChartProps } from './chart.tsx';
import { inUnits, spanWords, unitName } from '../../charts/measure.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

const RANGES = [7, 30, 366] as const;
/** Above this, a dot for each cycle is a blot: days have a dot each. */
const CYCLES_SHOWN_DAYS = 30;

interface HistoryData {
  fromMs: number;
  toMs: number;
  cycles: CycleEvent[] | undefined;
  days: DayAnswer[];
}

export function History({ detail, pump }: { detail: WellDetail; pump: PumpDetail }) {
  const { source } = useAppContext();
  const [range, setRange] = useState<number>(30);
  const { well } = detail.well;
  const { state, reload } = useRequest(
    `past ${well} ${range}`,
    async () => await fetchHistory(source, well, range),
  );
  return (
    <>
      <fieldset class="choices">
        <legend>{texts().period}</legend>
        {RANGES.map((days) => (
          <label key={days}>
            <input type="radio" name="range" checked={range === days} onChange={() => setRange(days)} />
            <span>{texts().periods[days]}</span>
          </label>
        ))}
      </fieldset>
      <RequestView state={state} subject={texts().historySubject} reload={reload}>
        {(past) => <HistoryCharts past={past} pump={pump} timeZone={detail.well.timeZone} />}
      </RequestView>
    </>
  );
}

async function fetchHistory(source: DataSource, well: string, range: number): Promise<HistoryData> {
  const toMs = Math.round(nowMs());
  const fromMs = toMs - range * DAY_MS;
  const window = { well, from: fromMs, to: toMs };
  const byCycle = range <= CYCLES_SHOWN_DAYS;
  const [days, cycles] = await Promise.all([
    source.get('days', { ...window, levels: !byCycle }),
    byCycle ? source.get('cycles', window) : undefined,
  ]);
  return { fromMs, toMs, days: days.days, cycles: cycles?.cycles };
}

interface Dots {
  xs: number[];
  amps: (number | undefined)[];
  cutIn: (number | undefined)[];
  cutOut: (number | undefined)[];
}

function dotsOf({ cycles, days }: HistoryData, pump: string): Dots {
  if (cycles) {
    const mine = cycles.filter((cycle) => cycle.pump === pump);
    return {
      xs: mine.map((cycle) => Date.parse(cycle.started) / 1000),
      amps: mine.map((cycle) => cycle.amps),
      cutIn: mine.map((cycle) => cycle.cutInKpa),
      cutOut: mine.map((cycle) => cycle.cutOutKpa),
    };
  }
  const mine = days.filter((day) => (day.pump ?? pump) === pump);
  return {
    xs: mine.map(noonS),
    amps: mine.map((day) => day.ampsMedian),
    cutIn: mine.map((day) => day.cutInKpaMedian),
    cutOut: mine.map((day) => day.cutOutKpaMedian),
  };
}

/**
 * A day's mark stands about its local noon: 18:00 UTC is in the same date from Hawaii to central
 * Europe.
 */
function noonS(day: DayAnswer): number {
  return Date.parse(`${day.date}T18:00:00Z`) / 1000;
}

interface HistoryProps {
  past: HistoryData;
  pump: PumpDetail;
  timeZone: string;
}

function HistoryCharts(props: HistoryProps) {
  const { units } = useAppContext();
  const { past, pump } = props;
  const dots = dotsOf(past, pump.pump);
  const days = past.days.filter((day) => (day.pump ?? pump.pump) === pump.pump);
  if (dots.xs.length === 0 && days.length === 0) return <p class="status">{texts().noHistory}</p>;
  return (
    <div class="charts">
      {[...runCharts(props, dots, units), ...dayCharts(props, days, units)].map((chart) => (
        <Chart key={chart.title} {...chart} />
      ))}
    </div>
  );
}

function commonOf({ past, timeZone }: HistoryProps, units: UnitSystem) {
  return { timeZone, units, xRange: [past.fromMs / 1000, past.toMs / 1000] as const };
}

/** A dashed line from the first mark to the last. */
function normalLine(value: number | undefined, xs: readonly number[], label: string): ChartLine[] {
  if (value === undefined || xs.length === 0) return [];
  const values = xs.map((_, i) => (i === 0 || i === xs.length - 1 ? value : null));
  return [{ label, tone: 'ink', draw: 'dashes', values }];
}

/** Running amps and the switch's points, a dot for each run or day. */
function runCharts(props: HistoryProps, dots: Dots, units: UnitSystem): ChartProps[] {
  const common = commonOf(props, units);
  const each = props.past.cycles ? texts().dotPerRun : texts().dotPerDay;
  const unit = unitName('pressure', units);
  const pressure = (values: readonly (number | undefined)[]) => inUnits(values, 'pressure', units);
  const { amps, cutInKpa, cutOutKpa } = props.pump.baseline ?? {};
  const [cutIn, cutOut] = [pressure(dots.cutIn), pressure(dots.cutOut)];
  const [normalCutIn, normalCutOut] = pressure([cutInKpa, cutOutKpa]);
  return [
    {
      ...common,
      title: texts().runningAmpsBy(each),
      unit: 'A',
      decimals: 2,
      minSpan: 1.5,
      xs: dots.xs,
      lines: [
        { label: texts().amps, tone: 'clay', draw: 'dots', values: inUnits(dots.amps, 'current', units) },
        ...normalLine(amps, dots.xs, texts().normal),
      ],
      label: texts().runningAmpsSpan(spanWords(dots.amps, 'A', 2)),
    },
    {
      ...common,
      title: texts().switchPointsBy(each),
      unit,
      decimals: 1,
      minSpan: units === 'us' ? 30 : 200,
      xs: dots.xs,
      lines: [
        { label: texts().cutOut, tone: 'water', draw: 'dots', values: cutOut },
        { label: texts().cutIn, tone: 'moss', draw: 'dots', values: cutIn },
        ...normalLine(normalCutOut ?? undefined, dots.xs, texts().normal),
        ...normalLine(normalCutIn ?? undefined, dots.xs, ''),
      ],
      label: texts().switchPointsSpan(spanWords(cutIn, unit, 1), spanWords(cutOut, unit, 1)),
    },
  ];
}

/** Run time and cycles of each day, as bars. */
function dayCharts(props: HistoryProps, days: readonly DayAnswer[], units: UnitSystem): ChartProps[] {
  const xs = days.map(noonS);
  const common = { ...commonOf(props, units), decimals: 0, minSpan: 10, fromZero: true, xs };
  const ranMin = days.map((day) => (day.ranS === undefined ? null : day.ranS / 60));
  const cyclesADay = days.map((day) => day.cycles ?? null);
  return [
    {
      ...common,
      title: texts().runTimePerDay,
      unit: 'min',
      lines: [{ label: texts().runTime, tone: 'water', draw: 'bars', values: ranMin }],
      label: texts().runTimeSpan(spanWords(ranMin, 'min', 0)),
    },
    {
      ...common,
      title: texts().cyclesPerDay,
      unit: '',
      lines: [
        { label: texts().cycles, tone: 'moss', draw: 'bars', values: cyclesADay },
        ...normalLine(props.pump.baseline?.cyclesPerDay, xs, texts().normal),
      ],
      label: texts().cyclesSpan(spanWords(cyclesADay, '', 0)),
    },
  ];
}
