/**
 * A machine with a clock draws at the same minute of the day: a softener that regenerates, a filter
 * that rinses itself, a timer. People do not.
 */
import { DAY_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import type { OpenRun } from '../scene.ts';

/** A wash and a bath begin runs that are shorter (common practice, no source). */
const MIN_RUN_S = 15 * 60;
/**
 * A softener's clock is right to some minutes, and the pump starts when the tank has been drawn
 * down.
 */
const TOLERANCE_MS = 15 * MINUTE_MS;
/** On so many days, the present one among them. */
const MIN_DAYS = 3;
/** Of the last runs so many are remembered: two weeks of a house with a long draw a day. */
const MAX_RUNS = 14;

/** The part of a watch's memory that holds when the last long runs began, newest last. */
export interface ClockMemory {
  longRunsMs?: number[];
}

/** Asked at each minute of a run. */
export function recordLongRun({ startedMs, ranS }: OpenRun, memory: ClockMemory): void {
  const runs = memory.longRunsMs ?? [];
  if (ranS < MIN_RUN_S || runs[runs.length - 1] === startedMs) return;
  memory.longRunsMs = [...runs, startedMs].slice(-MAX_RUNS);
}

/** Did long runs of this and two days before begin at the same time of day? */
export function beginsByClock({ startedMs }: OpenRun, memory: ClockMemory): boolean {
  const days = new Set<number>();
  for (const atMs of memory.longRunsMs ?? []) {
    // To the nearest whole day: a machine's clock knows no summer time.
    const daysAgo = Math.round((startedMs - atMs) / DAY_MS);
    if (Math.abs(startedMs - atMs - daysAgo * DAY_MS) <= TOLERANCE_MS) days.add(daysAgo);
  }
  return days.size >= MIN_DAYS;
}
