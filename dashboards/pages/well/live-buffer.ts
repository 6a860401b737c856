/**
 * The last 15 minutes of each channel, as chart and stream bring them: in order, each time once,
 * cut where nothing came for too long.
 */
import type { ChartAnswer } from '../../../shared/api/history.ts';
import type { LiveColumn } from '../../../shared/api/live.ts';
import { MINUTE_MS } from '../../../shared/units/duration.ts';

export const LIVE_MS = 15 * MINUTE_MS;
/** A value holds 90 s at most (contract, section 2): a longer silence is a gap. */
const MAX_HOLD_MS = 90_000;

interface Column {
  timesMs: number[];
  values: (number | null)[];
}

export type LiveBuffer = ReadonlyMap<string, Column>;

export function bufferOf(charts: readonly ChartAnswer[]): LiveBuffer {
  return new Map(
    charts.map(({ channel, fromMs, stepMs, mean }) => {
      const timesMs: number[] = [];
      const values: (number | null)[] = [];
      mean.forEach((value, i) => {
        if (value === null) return;
        timesMs.push(fromMs + i * stepMs);
        values.push(value);
      });
      return [channel, { timesMs, values }];
    }),
  );
}

/** What came is added; what came before (a node that sends again) or is too old is left out. */
export function appendReadings(
  buffer: LiveBuffer,
  columns: readonly LiveColumn[],
  nowMs: number,
): LiveBuffer {
  const next = new Map(buffer);
  for (const { channel, timesMs, values } of columns) {
    const held = next.get(channel) ?? { timesMs: [], values: [] };
    const lastMs = held.timesMs.at(-1) ?? -Infinity;
    const fresh = timesMs.map((ms, i) => ({ ms, value: values[i] ?? null })).filter(({ ms }) => ms > lastMs);
    const all = {
      timesMs: [...held.timesMs, ...fresh.map(({ ms }) => ms)],
      values: [...held.values, ...fresh.map(({ value }) => value)],
    };
    const from = all.timesMs.findIndex((ms) => ms >= nowMs - LIVE_MS);
    next.set(
      channel,
      from < 0
        ? { timesMs: [], values: [] }
        : { timesMs: all.timesMs.slice(from), values: all.values.slice(from) },
    );
  }
  return next;
}

/**
 * Several channels on one time axis (Unix s), with a hole wherever a channel was silent for too
 * long.
 */
export function aligned(
  buffer: LiveBuffer,
  channels: readonly string[],
): { xs: number[]; lines: (number | null)[][] } {
  const columns = channels.map((channel) => withGaps(buffer.get(channel) ?? { timesMs: [], values: [] }));
  const times = [...new Set(columns.flatMap(({ timesMs }) => timesMs))].toSorted((a, b) => a - b);
  const lines = columns.map((column) => {
    const byTime = new Map(column.timesMs.map((ms, i) => [ms, column.values[i] ?? null]));
    return times.map((ms, i) => (byTime.has(ms) ? (byTime.get(ms) ?? null) : lastValueAt(byTime, times, i)));
  });
  return { xs: times.map((ms) => ms / 1000), lines };
}

/**
 * With several channels one may have no value at the other's time: it holds its last, else there is
 * a hole.
 */
function lastValueAt(
  byTime: ReadonlyMap<number, number | null>,
  times: readonly number[],
  at: number,
): number | null {
  for (let i = at - 1; i >= 0 && times[at]! - times[i]! <= MAX_HOLD_MS; i -= 1) {
    if (byTime.has(times[i]!)) return byTime.get(times[i]!) ?? null;
  }
  return null;
}

function withGaps({ timesMs, values }: Column): Column {
  const out: Column = { timesMs: [], values: [] };
  timesMs.forEach((ms, i) => {
    const before = timesMs[i - 1];
    if (before !== undefined && ms - before > MAX_HOLD_MS) {
      out.timesMs.push(before + MAX_HOLD_MS);
      out.values.push(null);
    }
    out.timesMs.push(ms);
    out.values.push(values[i] ?? null);
  });
  return out;
}
