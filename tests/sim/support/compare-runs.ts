/**
 * What must be equal of two runs over the same readings, and what the contract lets differ (section
 * 4).
 */
import type { AlarmRow } from '../../../src/store/store.ts';
import type { Settled, SettledAlarm } from './run-both.ts';

const END = Number.MAX_SAFE_INTEGER;

/** Differences, a sentence each; none where the runs agree. */
export function differences(one: Settled, other: Settled): string[] {
  return [
    ...lines('cycle', one.cycles, other.cycles),
    ...lines('day', one.days, other.days),
    ...lines('baseline', one.baselines, other.baselines),
  ];
}

function lines(what: string, one: readonly string[], other: readonly string[]): string[] {
  const left = new Map<string, number>();
  for (const line of one) left.set(line, (left.get(line) ?? 0) + 1);
  const extra: string[] = [];
  for (const line of other) {
    const n = left.get(line) ?? 0;
    if (n === 0) extra.push(`${what} only in the second: ${line}`);
    else left.set(line, n - 1);
  }
  return [
    ...[...left].filter(([, n]) => n > 0).map(([line]) => `${what} only in the first: ${line}`),
    ...extra,
  ];
}

const sinceMs = (alarm: SettledAlarm): number => Date.parse(alarm.raised.since ?? alarm.raised.at);

/**
 * Alarms that were told while data was still to come, against those that have settled. Told once is
 * told: what overlaps is one alarm, so that a row may stand for several in a row, and begins when
 * it was first told. Where every alarm has its own row all is equal.
 */
export function alarmDifferences(
  rows: readonly AlarmRow[],
  live: readonly SettledAlarm[],
  settled: readonly SettledAlarm[],
): string[] {
  const found: string[] = [];
  const active = rows.filter((row) => row.withdrawnMs === undefined);
  for (const alarm of live) {
    const row = active.find((r) => r.event === alarm.raised);
    const fromMs = Math.min(sinceMs(alarm), row?.sinceMs ?? END);
    const mine = settled.filter(
      (other) =>
        other.key === alarm.key &&
        sinceMs(other) <= (alarm.clearedMs ?? END) &&
        (other.clearedMs ?? END) >= fromMs,
    );
    if (mine.length === 0) found.push(`told, and not so: ${JSON.stringify(alarm)}`);
    else if (mine.at(-1)!.clearedMs !== alarm.clearedMs)
      found.push(`ends at another time: ${JSON.stringify(alarm)} ${JSON.stringify(mine)}`);
    else if (mine.length === 1 && JSON.stringify(mine[0]!.raised) !== JSON.stringify(alarm.raised))
      found.push(`says another thing: ${JSON.stringify(alarm)} ${JSON.stringify(mine)}`);
  }
  for (const alarm of settled) {
    const matched = live.some(
      (other) =>
        other.key === alarm.key &&
        sinceMs(alarm) <= (other.clearedMs ?? END) &&
        (alarm.clearedMs ?? END) >= sinceMs(other),
    );
    if (!matched) found.push(`not told: ${JSON.stringify(alarm)}`);
  }
  return found;
}
