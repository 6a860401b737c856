/** What a finished day teaches the baseline, and the line that says so. */
import { noneBecauseText, type NotLearned } from '../baseline/reason-text.ts';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import type { Baseline } from '../baseline/baseline.ts';
import { learnDay } from '../baseline/learn.ts';
import { baselineEvent } from './baseline-event.ts';
import { forgetAlarmDays } from './forget-alarm-days.ts';
import type { OpenDay } from './open-day.ts';
import { formatTime, type Emit } from './emit.ts';
import type { WellState } from './well-state.ts';

/** Laid up or out of service, by what people said. */
export function isOnHold({ alarms: { suspensions } }: WellState): boolean {
  return suspensions.some(({ is }) => is !== 'visit');
}

/** While somebody works on a well, or it stands still, nothing that it does is usual. */
export function canLearn(well: WellState): boolean {
  return !well.visitOpen && !isOnHold(well);
}

export function learnFromDay(
  well: WellState,
  at: number,
  dayEvent: DayEvent,
  day: OpenDay,
  emit: Emit,
): void {
  if (!canLearn(well) || day.wasOnHold) return;
  forgetAlarmDays(well, at, well.nowMs, emit);
  const record = well.records[at]!;
  const result = learnDay(record.learning, {
    day: dayEvent,
    atMs: day.endMs,
    dayS: (day.endMs - day.startMs) / 1000,
    card: well.card,
    pump: well.card.pumps[at]!,
    activeAlarms: day.alarmsActive,
    baseline: record.baseline,
    pinned: record.pinned,
    prechargeKpa: well.waterScene.prechargeKpa,
  });
  if (result.baseline) {
    record.baseline = result.baseline;
    if (result.first && record.pinned?.pinned !== true) record.pinned = withoutShape(result.baseline);
  }
  if (result.noneBecause !== undefined) emitNoBaseline(well, at, day.endMs, result.noneBecause, emit);
  else if (result.shouldEmit && result.baseline) emitBaseline(well, at, result.baseline, emit);
}

function emitNoBaseline(
  well: WellState,
  at: number,
  atMs: number,
  noneBecause: NotLearned,
  emit: Emit,
): void {
  const event: BaselineEvent = {
    event: 'baseline',
    well: well.card.well,
    pump: pumpIdOf(well, at),
    at: formatTime(atMs),
    noneBecause: noneBecauseText(noneBecause),
  };
  emit({ event, orderMs: atMs });
}

/**
 * The pinned normal is for slow faults, and a former one for its figures; neither needs its shape,
 * which would be saved twice.
 */
export function withoutShape(baseline: Baseline): Baseline {
  const { shape: _shape, ...rest } = baseline;
  return rest;
}

function pumpIdOf(well: WellState, at: number): string {
  return well.card.pumps[at]?.id ?? `p${at + 1}`;
}

export function emitBaseline(well: WellState, at: number, baseline: Baseline, emit: Emit): void {
  emit({ event: baselineEvent(well.card.well, pumpIdOf(well, at), baseline), orderMs: baseline.atMs });
}
