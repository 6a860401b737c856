/**
 * Drives the water of a well over a model's readings and says how far its litres are from the
 * model's.
 */
import type { TankCard } from '../../../src/core/domain/card.ts';
import type { RunWater } from '../../../src/core/hydraulics/run-volume.ts';
import { newWaterState, type WaterState } from '../../../src/core/hydraulics/water-state.ts';
import { closeTankDay, type TankDayWater } from '../../../src/core/hydraulics/water-view.ts';
import {
  handleWaterMinute,
  handleWaterReading,
  handleWaterRunStarted,
  handleWaterRunStopped,
} from '../../../src/core/hydraulics/water.ts';
import { MODEL_BEGINS_MS, type Model } from './model.ts';

export interface Driven {
  runs: RunWater[];
  days: TankDayWater[];
  state: WaterState;
  /** Longest saved state, characters. */
  longest: number;
}

export interface DriveOptions {
  tank?: TankCard;
  altitudeM?: number;
  /** Readings until a start or stop is sure. */
  sureAfter?: number;
  /** Called before each reading: may replace the state by a saved and restored one. */
  between?: (state: WaterState, at: number) => WaterState;
}

const DAY_MS = 86_400_000;

export function drive(model: Model, options: DriveOptions = {}): Driven {
  const { sureAfter = 2, between } = options;
  let state = newWaterState({
    altitudeM: options.altitudeM ?? 0,
    ...(options.tank && { tank: options.tank }),
  });
  const out: Driven = { runs: [], days: [], state, longest: 0 };
  const calls = model.runs.flatMap((run) => [
    { at: model.timeMs.indexOf(run.startedMs) + sureAfter, atMs: run.startedMs, start: true },
    { at: model.timeMs.indexOf(run.stoppedMs) + sureAfter, atMs: run.stoppedMs, start: false },
  ]);
  let next = 0;
  let minute = 0;
  let dayEndMs = MODEL_BEGINS_MS + DAY_MS;
  for (const [at, tMs] of model.timeMs.entries()) {
    if (tMs >= dayEndMs) {
      out.days.push(closeTankDay(state, dayEndMs - DAY_MS, dayEndMs));
      dayEndMs += DAY_MS;
      out.longest = Math.max(out.longest, JSON.stringify(state).length);
    }
    if (Math.floor(tMs / 60_000) !== minute) {
      minute = Math.floor(tMs / 60_000);
      handleWaterMinute(state, minute * 60_000);
    }
    if (between) state = between(state, at);
    handleWaterReading(state, tMs, model.kpa[at]!);
    for (; next < calls.length && calls[next]!.at <= at; next++) {
      const call = calls[next]!;
      if (call.start) handleWaterRunStarted(state, call.atMs);
      else out.runs.push(handleWaterRunStopped(state, call.atMs));
    }
  }
  out.days.push(closeTankDay(state, dayEndMs - DAY_MS, dayEndMs));
  out.state = state;
  return out;
}

/** Share by which each run's litres differ from the model's, from run `from` on. */
export function litreErrors(model: Model, driven: Driven, from = 0): number[] {
  return driven.runs
    .slice(from)
    .map((run, i) => (run.deliveredL ?? Number.NaN) / model.runs[from + i]!.deliveredL - 1);
}

export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}
