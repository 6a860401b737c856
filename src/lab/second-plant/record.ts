/**
 * What is true of a well, beside what its sensors show: runs, water by local day, and when a fault
 * first showed.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import type { TrueCycle, TrueDay } from '../plant/params.ts';
import { showsNow, type ShowingState } from './showing.ts';
import type { Second } from './state.ts';

/** After this the current of a start has passed (contract, section 6: `amps`). */
const SETTLED_S = 2;
const MAX_AMPS = 2000;

export interface Recorder {
  cycles: TrueCycle[];
  days: TrueDay[];
  day: { startMs: number; usedL: number; leakL: number };
  open: (OpenRun | undefined)[];
  showing: ShowingState;
  /** When the fault could first be seen. */
  shownMs?: number;
}

interface OpenRun {
  startedMs: number;
  cutInKpa?: number;
  deliveredL: number;
  amps: number[];
  settledAmps: number[];
}

export function newRecorder(pumps: number, fromMs: number, utcOffsetH: number): Recorder {
  const localMs = fromMs + utcOffsetH * HOUR_MS;
  return {
    cycles: [],
    days: [],
    day: { startMs: fromMs - (((localMs % DAY_MS) + DAY_MS) % DAY_MS), usedL: 0, leakL: 0 },
    open: Array.from({ length: pumps }, () => undefined),
    showing: { runs: 0, sinceMs: Number.NaN },
  };
}

export function recordChange(second: Second, pump: number, shownKpa: number | undefined): void {
  const { recorder, tMs, units } = second;
  if (units[pump]!.on) {
    recorder.open[pump] = {
      startedMs: tMs,
      ...(shownKpa !== undefined && { cutInKpa: shownKpa }),
      deliveredL: 0,
      amps: [],
      settledAmps: [],
    };
    return;
  }
  const run = recorder.open[pump];
  if (!run) return;
  recorder.open[pump] = undefined;
  const amps = median(run.settledAmps.length > 0 ? run.settledAmps : run.amps);
  recorder.cycles.push({
    pump,
    startedMs: run.startedMs,
    stoppedMs: tMs,
    deliveredL: run.deliveredL,
    ...(amps !== undefined && { amps }),
    ...(run.cutInKpa !== undefined && { cutInKpa: run.cutInKpa }),
    ...(shownKpa !== undefined && { cutOutKpa: shownKpa }),
  });
}

/** What the clamp would show without its noise, at a reading within the run. */
export function recordAmps({ recorder, units, plan, tMs }: Second, shown: (pump: number) => number): void {
  if (tMs % (1000 * plan.meanS) !== 0) return;
  for (let pump = 0; pump < units.length; pump++) {
    const run = recorder.open[pump];
    const { onS } = units[pump]!;
    if (run === undefined || onS < plan.meanS) continue;
    if (run.amps.length < MAX_AMPS) run.amps.push(shown(pump));
    if (onS - plan.meanS >= SETTLED_S && run.settledAmps.length < MAX_AMPS) run.settledAmps.push(shown(pump));
  }
}

export function recordWater(second: Second, leakLPerS: number, dtS: number): void {
  const { recorder, units, drawnLPerS, plan, tMs } = second;
  recorder.day.usedL += drawnLPerS * dtS;
  recorder.day.leakL += leakLPerS * dtS;
  for (let pump = 0; pump < units.length; pump++) {
    const run = recorder.open[pump];
    if (run) run.deliveredL += units[pump]!.flowLPerS * dtS;
  }
  if (tMs - recorder.day.startMs >= DAY_MS) {
    const { startMs, usedL, leakL } = recorder.day;
    recorder.days.push({ startMs, endMs: startMs + DAY_MS, usedL, leakL });
    recorder.day = { startMs: startMs + DAY_MS, usedL: 0, leakL: 0 };
  }
  if (plan.showing && recorder.shownMs === undefined && showsNow(second, plan.showing))
    recorder.shownMs = tMs;
}

function median(values: number[]): number | undefined {
  return values.sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)];
}
