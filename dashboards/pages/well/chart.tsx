/**
 * A chart on a canvas (uPlot), in the page's own colours, with its content said in words beside it:
 * a canvas is nothing to who reads by ear. Lines differ by how they are drawn (line, dots, bars,
 * dashes), never by color alone.
 */
import { useEffect, useRef, useState } from 'preact/hooks';
import uPlot from 'uplot';
import { clockWords, localDate } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { DAY_S } from '../../../shared/units/duration.ts';

/** Steps of an axis of seconds: whole tens and minutes. */
const RUN_STEPS_S = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1_200, 1_800, 3_600, 7_200, 14_400];
/** Radius of a dot. */
const DOT_PX = 1.75;

type Tone = 'clay' | 'water' | 'moss' | 'ink' | 'soft';

export interface ChartLine {
  label: string;
  tone: Tone;
  draw: 'line' | 'dots' | 'bars' | 'dashes' | 'unseen';
  values: readonly (number | null)[];
}

export interface ChartProps {
  /** In words, complete: what the chart shows, for who can't see it. */
  label: string;
  title: string;
  unit: string;
  decimals: number;
  /** Unix seconds with a time zone, plain seconds without. */
  xs: readonly number[];
  lines: readonly ChartLine[];
  /** Fills between two of the lines, by their places. */
  bands?: readonly [upper: number, lower: number][];
  timeZone?: string;
  units: UnitSystem;
  xRange?: readonly [number, number];
  /** The vertical axis shows at least this much, so that noise does not look like news. */
  minSpan: number;
  fromZero?: boolean;
  height?: number;
}

export function Chart(props: ChartProps) {
  const frame = useRef<HTMLDivElement>(null);
  const readout = useRef<HTMLSpanElement>(null);
  const plot = useRef<uPlot>(null);
  const dark = useDark();
  const latest = useRef(props);
  latest.current = props;
  const shape = JSON.stringify([
    props.lines.map(({ draw, tone }) => [draw, tone]),
    props.unit,
    props.timeZone,
    props.units,
    dark,
  ]);
  useEffect(() => {
    const at = frame.current;
    if (!at) return undefined;
    const setReadout = (text: string): void => {
      if (readout.current) readout.current.textContent = text;
    };
    const created = new uPlot(optionsOf(at, latest, setReadout), dataOf(latest.current), at);
    plot.current = created;
    const watch = new ResizeObserver(() =>
      created.setSize({ width: at.clientWidth, height: created.height }),
    );
    watch.observe(at);
    return () => {
      watch.disconnect();
      created.destroy();
      plot.current = null;
    };
  }, [shape]);
  useEffect(() => plot.current?.setData(dataOf(props)), [props.xs, props.lines]);
  return (
    <figure class="chart">
      <figcaption>
        <span class="chart-title">{props.title}</span> <span class="chart-unit">{props.unit}</span>
        <Legend lines={props.lines} />
        <span class="readout" ref={readout} aria-hidden="true" />
      </figcaption>
      <div class="chart-frame" ref={frame} role="img" aria-label={props.label} />
    </figure>
  );
}

function Legend({ lines }: { lines: readonly ChartLine[] }) {
  const named = lines.filter(({ draw, label }) => draw !== 'unseen' && label !== '');
  if (named.length < 2) return null;
  return (
    <span class="key">
      {named.map(({ label, tone, draw }) => (
        <span key={label} class={`key-line tone-${tone}`}>
          <svg viewBox="0 0 22 10" width="22" height="10" aria-hidden="true" class={`draw-${draw}`}>
            {draw === 'dots' ? <path d="M4 5h.1M11 5h.1M18 5h.1" /> : <path d="M1 5h20" />}
          </svg>
          {label}
        </span>
      ))}
    </span>
  );
}

function useDark(): boolean {
  const [dark, setDark] = useState(() => matchMedia('(prefers-color-scheme: dark)').matches);
  useEffect(() => {
    const query = matchMedia('(prefers-color-scheme: dark)');
    const change = (): void => setDark(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, []);
  return dark;
}

function dataOf({ xs, lines }: ChartProps): uPlot.AlignedData {
  return [[...xs], ...lines.map(({ values }) => [...values])];
}

function optionsOf(
  at: HTMLElement,
  latest: { current: ChartProps },
  setReadout: (text: string) => void,
): uPlot.Options {
  const { lines, timeZone, units, bands, height = 150 } = latest.current;
  const style = getComputedStyle(at);
  const tone = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  const axis = {
    stroke: tone('soft'),
    font: `12px ${style.fontFamily}`,
    grid: { stroke: tone('line'), width: 1 },
    ticks: { stroke: tone('line'), width: 1, size: 4 },
  };
  return {
    width: at.clientWidth,
    height,
    legend: { show: false },
    padding: [8, 26, 0, 0],
    cursor: { drag: { x: false, y: false }, points: { size: 7 } },
    ...(timeZone === undefined ? {} : { tzDate: (s: number) => uPlot.tzDate(new Date(s * 1e3), timeZone) }),
    scales: {
      x: { time: timeZone !== undefined, range: (_plot, min, max) => xRange(latest.current, min, max) },
      y: { range: (_plot, min, max) => yRange(latest.current, min, max) },
    },
    axes: [
      {
        ...axis,
        size: 30,
        space: 60,
        ...(timeZone === undefined ? { incrs: RUN_STEPS_S } : {}),
        values: timeZone === undefined ? runLabels : timeLabels(units, timeZone),
      },
      { ...axis, size: 46, space: 28 },
    ],
    series: [{}, ...lines.map((line) => seriesOf(line, tone(line.tone)))],
    bands: (bands ?? []).map(([upper, lower]) => ({ series: [upper + 1, lower + 1], fill: tone('band') })),
    hooks: { setCursor: [(plot) => setReadout(readoutOf(latest.current, plot.cursor.idx))] },
  };
}

function seriesOf({ draw }: ChartLine, stroke: string): uPlot.Series {
  const quiet = { points: { show: false }, spanGaps: false };
  switch (draw) {
    case 'line':
      return { ...quiet, stroke, width: 1.75 };
    case 'dashes':
      return { ...quiet, stroke, width: 1.25, dash: [6, 5], spanGaps: true };
    case 'dots':
      return { ...quiet, stroke, fill: stroke, width: 0, paths: dots };
    case 'bars':
      return {
        ...quiet,
        stroke,
        fill: stroke,
        width: 0,
        ...(uPlot.paths.bars ? { paths: uPlot.paths.bars({ size: [0.75, 40] }) } : {}),
      };
    case 'unseen':
      return { ...quiet, width: 0 };
    default:
      return draw satisfies never;
  }
}

/**
 * Dots as a path, not as uPlot's points: those are painted over all lines, and the usual would lie
 * hidden under them.
 */
function dots(plot: uPlot, series: number, from: number, to: number): uPlot.Series.Paths {
  const fill = new Path2D();
  const radius = DOT_PX * devicePixelRatio;
  const [xs, ys] = [plot.data[0], plot.data[series] ?? []];
  for (let i = from; i <= to; i += 1) {
    const value = ys[i];
    const at = xs[i];
    if (value === null || value === undefined || at === undefined) continue;
    const [x, y] = [plot.valToPos(at, 'x', true), plot.valToPos(value, 'y', true)];
    fill.moveTo(x + radius, y);
    fill.arc(x, y, radius, 0, 2 * Math.PI);
  }
  return { fill };
}

function xRange({ xRange: wanted, xs }: ChartProps, min: number, max: number): [number, number] {
  if (wanted) return [wanted[0], wanted[1]];
  return xs.length === 0 ? [0, 1] : [min, max];
}

function yRange({ minSpan, fromZero }: ChartProps, min: number | null, max: number | null): [number, number] {
  if (min === null || max === null) return [0, minSpan];
  if (fromZero) return [0, Math.max(max * 1.08, minSpan)];
  const span = Math.max((max - min) * 1.15, minSpan);
  const middle = (min + max) / 2;
  return [middle - span / 2, middle + span / 2];
}

/** "10:40 am" inside a day, "3 Mar" over days: uPlot hands the step between two marks. */
function timeLabels(units: UnitSystem, timeZone: string): uPlot.Axis.DynamicValues {
  return (_plot, marks, _axis, _space, stepS) =>
    marks.map((s) => {
      const date = uPlot.tzDate(new Date(s * 1e3), timeZone);
      if (stepS >= 86_400) {
        const month = date.toLocaleString('en-US', { month: 'short' });
        return stepS >= 27 * DAY_S ? month : `${date.getDate()} ${month}`;
      }
      const minutes = String(date.getMinutes()).padStart(2, '0');
      const hours = date.getHours();
      return units === 'us'
        ? `${hours % 12 || 12}:${minutes} ${hours < 12 ? 'am' : 'pm'}`
        : `${String(hours).padStart(2, '0')}:${minutes}`;
    });
}

/** Time into a run: seconds, or minutes where it is long. */
function runLabels(_plot: uPlot, marks: number[], _axis: number, _space: number, stepS: number): string[] {
  return marks.map((s) => (stepS % 60 === 0 ? `${s / 60} min` : `${s} s`));
}

function readoutOf(
  { xs, lines, decimals, unit, timeZone, units }: ChartProps,
  at: number | null | undefined,
): string {
  const x = at === null || at === undefined ? undefined : xs[at];
  if (x === undefined || at === null || at === undefined) return '';
  const when =
    timeZone === undefined
      ? `${Math.round(x)} s`
      : `${localDate(x * 1e3, timeZone)} ${clockWords(x * 1e3, timeZone, units)}`;
  const values = lines
    .filter(({ draw }) => draw !== 'unseen')
    .map(({ label, values: all }) => [label, all[at]] as const)
    .filter(([, value]) => value !== null && value !== undefined)
    .map(([label, value]) => `${label} ${value?.toFixed(decimals)} ${unit}`.trim());
  return [when, ...values].join(' · ');
}
