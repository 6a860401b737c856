/**
 * Values over the years as points of a small drawing, with lines to hold them against; the numbers
 * of it, no markup.
 */
import { DAY_MS } from '../../shared/units/duration.ts';
export interface TrendPoint {
  atMs: number;
  value: number;
  /** Under what could be measured, or over what could be counted: drawn hollow. */
  open?: boolean;
}

export interface ReferenceLine {
  value: number;
  words: string;
}

export interface TrendShape {
  points: { x: number; y: number; open: boolean }[];
  path: string;
  lines: { y: number; words: string }[];
  /** First of January of each year that lies in the span; every n-th where they would touch. */
  years: { x: number; word: string }[];
  low: number;
  high: number;
}

export const TREND_BOX = { width: 640, height: 200, left: 8, right: 632, top: 14, bottom: 170 };
/** Room between two words of the axis. */
const YEAR_WIDTH = 60;
const MONTH_MS = 30 * DAY_MS;
/**
 * Lines far over everything measured would press the points flat; they are left to the words
 * beside.
 */
const MAX_LINE_RATIO = 4;

/** Points by time. `fromZero`: amounts of something; a pressure is drawn around itself. */
export function trendShape(
  points: readonly TrendPoint[],
  lines: readonly ReferenceLine[],
  fromZero: boolean,
): TrendShape | undefined {
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return undefined;
  const from = first.atMs - MONTH_MS;
  const to = last.atMs + MONTH_MS;
  const values = points.map(({ value }) => value);
  const shownLines = lines.filter(({ value }) => value <= MAX_LINE_RATIO * Math.max(...values));
  const all = [...values, ...shownLines.map(({ value }) => value)];
  const spread = Math.max(...all) - Math.min(...all) || Math.abs(Math.max(...all)) || 1;
  const low = fromZero ? 0 : Math.min(...all) - 0.2 * spread;
  const high = Math.max(...all) + 0.15 * spread;
  const { left, right, top, bottom } = TREND_BOX;
  const x = (atMs: number): number => round(left + ((atMs - from) / (to - from)) * (right - left));
  const y = (value: number): number => round(bottom - ((value - low) / (high - low)) * (bottom - top));
  const placed = points.map(({ atMs, value, open }) => ({ x: x(atMs), y: y(value), open: open === true }));
  return {
    points: placed,
    path: placed.map((point, at) => `${at === 0 ? 'M' : 'L'}${point.x} ${point.y}`).join(''),
    lines: shownLines.map(({ value, words }) => ({ y: y(value), words })),
    years: yearsBetween(from, to, x),
    low,
    high,
  };
}

function yearsBetween(from: number, to: number, x: (atMs: number) => number): TrendShape['years'] {
  const firstYear = new Date(from).getUTCFullYear() + 1;
  const all = Array.from({ length: Math.max(0, new Date(to).getUTCFullYear() - firstYear + 1) }, (_, at) => ({
    x: x(Date.UTC(firstYear + at, 0, 1)),
    word: String(firstYear + at),
  }));
  const every = Math.max(1, Math.ceil((all.length * YEAR_WIDTH) / (TREND_BOX.right - TREND_BOX.left)));
  // A word at the very edge would be cut off.
  const whole = (at: number): boolean =>
    at >= TREND_BOX.left + YEAR_WIDTH / 2.5 && at <= TREND_BOX.right - YEAR_WIDTH / 2.5;
  return all.filter((one, at) => at % every === 0 && whole(one.x));
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
