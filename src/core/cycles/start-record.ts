/**
 * Fast readings of a start: from a record that comes as one pack of its own, or because the channel
 * itself is that fast.
 */
import type { Pace } from './pace.ts';
import type { PumpState } from './pump-state.ts';
import type { Run } from './run.ts';
import { newStart, addToStart } from './start.ts';

const FAST_PERIOD_MS = 100;
/** The contract's longest record of a start, and its slowest sampling. */
const START_RECORD_MS = 5000;
const SLOWEST_PERIOD_MS = 10_000;

/** Readings 0.1 s apart or closer show the inrush. */
export function isFast(pace: Pace): boolean {
  return pace.periodMs > 0 && pace.periodMs <= FAST_PERIOD_MS;
}

/**
 * One reading of a start's record at 50 Hz or more, A. It comes before its run is believed, or
 * while the run goes on.
 */
export function handleStartRecord(pump: PumpState, tMs: number, amps: number): void {
  if (pump.run && pump.edges.phase === 'run') {
    addFastReading(pump, tMs, amps);
    return;
  }
  const record = pump.startRecord;
  if (record && tMs - record.lastMs <= START_RECORD_MS) addToStart(record, tMs, amps, pump.levels.on);
  else pump.startRecord = newStart(tMs, amps);
}

/**
 * A record is of this start where it ended no longer before than the slowest sampling takes to see
 * it.
 */
export function attachStartRecord(pump: PumpState, run: Run): void {
  const record = pump.startRecord;
  pump.startRecord = undefined;
  if (record && run.startedMs - record.lastMs <= START_RECORD_MS + SLOWEST_PERIOD_MS) run.start = record;
}

/**
 * Readings 0.1 s apart or closer, A: the highest of the whole run counts, the length of the inrush
 * by its first seconds.
 */
export function addFastReading(pump: PumpState, tMs: number, amps: number): void {
  const { run } = pump;
  if (!run) return;
  if (!run.start) run.start = newStart(tMs, amps);
  else if (tMs - run.start.fromMs <= START_RECORD_MS) addToStart(run.start, tMs, amps, pump.levels.on);
  else if (amps > run.start.peakAmps) run.start.peakAmps = amps;
}
