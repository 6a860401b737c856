/** What a finished day teaches the baseline, and the line that says so. */
import type { BaselineEvent, DayEvent } from '../../shared/api/events.ts';
import type { Baseline } from '../baseline/baseline.ts';
import { learnDay } from '../baseline/learn.ts';
import type { OpenDay } from './day.ts';
import { printTime, type Emit } from './emit.ts';
import type { WellState } from './state.ts';

/** Laid up or out of service, by what people said. */
export function standsStill({ alarms: { away } }: WellState): boolean {
  return away.some(({ is }) => is !== 'visit');
}

/** While somebody works on a well, or it stands still, nothing that it does is usual. */
export function mayLearn(well: WellState): boolean {
  return !well.visitOpen && !standsStill(well);
}

export function teach(well: WellState, at: number, line: DayEvent, day: OpenDay, emit: Emit): void {
  if (!mayLearn(well) || day.stoodStill) return;
  const record = well.records[at]!;
  const lesson = learnDay(record.learning, {
    day: line,
    atMs: day.endMs,
    dayS: (day.endMs - day.startMs) / 1000,
    card: well.card,
    pump: well.card.pumps[at]!,
    standing: day.stood,
    baseline: record.baseline,
    pinned: record.pinned,
    airKpa: well.waterScene.airKpa,
  });
  if (lesson.baseline) {
    record.baseline = lesson.baseline;
    if (lesson.first && record.pinned?.pinned !== true) record.pinned = withoutShape(lesson.baseline);
  }
  if (lesson.noneBecause !== undefined) sayNone(well, at, day.endMs, lesson.noneBecause, emit);
  else if (lesson.tell && lesson.baseline) sayBaseline(well, at, lesson.baseline, emit);
}

function sayNone(well: WellState, at: number, atMs: number, noneBecause: string, emit: Emit): void {
  const event: BaselineEvent = {
    event: 'baseline',
    well: well.card.well,
    pump: idOf(well, at),
    at: printTime(atMs),
    noneBecause,
  };
  emit({ event, orderMs: atMs });
}

/** The pinned normal is for slow faults, and a former one for its figures; neither needs its shape, which would be saved twice. */
export function withoutShape(baseline: Baseline): Baseline {
  const { shape: _shape, ...rest } = baseline;
  return rest;
}

function idOf(well: WellState, at: number): string {
  return well.card.pumps[at]?.id ?? `p${at + 1}`;
}

export function sayBaseline(well: WellState, at: number, baseline: Baseline, emit: Emit): void {
  emit({ event: baselineEvent(well.card.well, idOf(well, at), baseline), orderMs: baseline.atMs });
}

/** A normal as its line prints it. */
export function baselineEvent(well: string, pump: string, baseline: Baseline): BaselineEvent {
  const { amps, cutInKpa, cutOutKpa, ranS, cyclesPerDay } = baseline;
  return {
    event: 'baseline',
    well,
    pump,
    at: printTime(baseline.atMs),
    ...(amps && { amps: round(amps.median, 1000), ampsSpread: round(amps.spread, 10_000) }),
    ...(cutInKpa && { cutInKpa: round(cutInKpa.median, 100) }),
    ...(cutOutKpa && { cutOutKpa: round(cutOutKpa.median, 100) }),
    ...(ranS && { ranS: round(ranS.median, 10) }),
    ...(cyclesPerDay && { cyclesPerDay: round(cyclesPerDay.median, 10) }),
    ...(baseline.pinned && { pinned: true as const }),
  };
}

function round(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
