/**
 * No day under an alarm is a measure of the well, nor one between the beginning of its condition
 * and the time at which it was raised.
 */
import { earliestConditionMs } from '../alarms/lifecycle/alarm-entry.ts';
import { baselineBefore } from '../baseline/forget-days.ts';
import { hasMoved } from '../baseline/has-moved.ts';
import { emittedMedians } from '../baseline/learn.ts';
import { baselineEvent } from './baseline-event.ts';
import type { Emit } from './emit.ts';
import { localDayAt } from './local-day.ts';
import type { WellState } from './well-state.ts';

/**
 * Takes back the days since the conditions of this pump's active alarms began. Called when one is
 * raised and when a day ends: one that another explains is active without being raised.
 */
export function forgetAlarmDays(well: WellState, at: number, atMs: number, emit: Emit): void {
  const record = well.records[at]!;
  const pump = well.card.pumps[at]!;
  const sinceMs = earliestConditionMs(well.alarms, pump.id);
  // The running day teaches nothing anyway.
  if (sinceMs === undefined || (well.day && sinceMs >= well.day.startMs)) return;
  const before = baselineBefore(record.learning, {
    sinceMs,
    fromDate: localDayAt(sinceMs, well.card.timeZone).date,
    baseline: record.baseline,
    pinned: record.pinned,
  });
  if (!before) return;
  const moved = hasMoved(record.baseline, before);
  record.baseline = moved ? { ...before, lastEmitted: emittedMedians(before) } : before;
  if (moved) emit({ event: baselineEvent(well.card.well, pump.id, { ...before, atMs }), orderMs: atMs });
}
