/**
 * A reference reading with a guide: somebody opens a tap, the pump starts, the tap is shut, the
 * pump fills the tank and stops. This says how far it is and what to do next, and in the end what
 * that run showed. Only a run that began after the guide did counts.
 */
import type { CycleEvent } from '../../../shared/api/events.ts';
import { HOUR_S, MINUTE_MS } from '../../../shared/units/duration.ts';
import type { Control } from '../../core/domain/card.ts';

export interface GuidedRunInput {
  /** When the guide began; by our clock, as `nowMs`. */
  sinceMs: number;
  nowMs: number;
  control: Control;
  /** The newest reading of this pump's current; absent where none ever came. */
  lastReadingMs?: number;
  running?: boolean;
  runningSinceMs?: number;
  /** Of this pump, that stopped after the guide began, oldest first. */
  cycles: readonly CycleEvent[];
  /** How long a run of this pump usually takes. */
  normalRanS?: number;
}

export type GuidedReadingKind = 'amps' | 'cut-in' | 'cut-out' | 'fill-time';

export interface GuidedReading {
  kind: GuidedReadingKind;
  si: number;
  /** The phase of a three-phase motor. */
  phase?: 2 | 3;
}

export type TimeoutReason = 'no-data' | 'no-start' | 'no-stop';
export type MissingReason = 'no-sensor' | 'not-reached' | 'not-by-pressure';

export type GuidedRun =
  /** Nothing comes from the clamp, so nothing can be seen of a run. */
  | { is: 'no-data'; silentS?: number }
  | { is: 'already-running'; ranS?: number }
  | { is: 'waiting'; waitedS: number }
  | { is: 'running'; ranS: number; long: boolean }
  /** It ended, but with a hole in the readings or without turning. */
  | { is: 'unusable'; reason: 'gap' | 'failed-start' }
  | { is: 'timed-out'; reason: TimeoutReason }
  | {
      is: 'done';
      started: string;
      stopped: string;
      readings: GuidedReading[];
      missing: { kind: GuidedReadingKind; reason: MissingReason }[];
      /** Readings over 3 s apart: the pressures lie on straight lines through what was read. */
      coarse: boolean;
    };

/**
 * A clamp that speaks at all speaks within the longest gap of sending by exception (contract,
 * section 2).
 */
const SILENT_MS = 90_000;
/** A tap fully open empties the largest common tank's drawdown in this (40 gal at 2 gpm). */
const START_TIMEOUT_MS = 30 * MINUTE_MS;
/** A tank of any size that fills with all taps shut is full in this. */
const STOP_TIMEOUT_S = HOUR_S;
/** Longer than this many usual runs, or than this: perhaps a tap is still open. */
const LONG_RUN_FACTOR = 2;
const LONG_RUN_S = 600;

export function guidedRun(now: GuidedRunInput): GuidedRun {
  const own = now.cycles.filter(({ started }) => Date.parse(started) >= now.sinceMs);
  const good = own.findLast((cycle) => unusableReason(cycle) === undefined);
  if (good) return completedRun(good, now.control);
  if (now.lastReadingMs === undefined) return { is: 'no-data' };
  const silentMs = now.nowMs - now.lastReadingMs;
  if (silentMs > SILENT_MS) return { is: 'no-data', silentS: silentMs / 1000 };
  if (now.running === true) return runningState(now);
  const last = own.at(-1);
  const broken = last && unusableReason(last);
  if (broken) return { is: 'unusable', reason: broken };
  const waitedMs = now.nowMs - now.sinceMs;
  if (waitedMs > START_TIMEOUT_MS) return { is: 'timed-out', reason: 'no-start' };
  return { is: 'waiting', waitedS: waitedMs / 1000 };
}

function runningState({ nowMs, sinceMs, runningSinceMs, normalRanS }: GuidedRunInput): GuidedRun {
  if (runningSinceMs === undefined) return { is: 'already-running' };
  const ranS = Math.max(0, nowMs - runningSinceMs) / 1000;
  const own = runningSinceMs >= sinceMs;
  const maxS = Math.max(STOP_TIMEOUT_S, (normalRanS ?? 0) * LONG_RUN_FACTOR);
  if (own && ranS > maxS) return { is: 'timed-out', reason: 'no-stop' };
  if (!own) return { is: 'already-running', ranS };
  return {
    is: 'running',
    ranS,
    long: ranS > (normalRanS === undefined ? LONG_RUN_S : normalRanS * LONG_RUN_FACTOR),
  };
}

function unusableReason({ flags }: CycleEvent): 'gap' | 'failed-start' | undefined {
  if (flags.includes('failed-start')) return 'failed-start';
  return flags.some((flag) => flag === 'gap' || flag === 'clock-step' || flag === 'merged')
    ? 'gap'
    : undefined;
}

function completedRun(cycle: CycleEvent, control: Control): GuidedRun {
  const readings: GuidedReading[] = [];
  const missing: { kind: GuidedReadingKind; reason: MissingReason }[] = [];
  const take = (kind: GuidedReadingKind, si: number | undefined, reason: MissingReason): void => {
    if (si === undefined) missing.push({ kind, reason });
    else readings.push({ kind, si });
  };
  const byPressure = control === 'pressure-switch' || control === 'constant-pressure-valve';
  take('amps', cycle.amps, 'no-sensor');
  if (cycle.amps2 !== undefined) readings.push({ kind: 'amps', si: cycle.amps2, phase: 2 });
  if (cycle.amps3 !== undefined) readings.push({ kind: 'amps', si: cycle.amps3, phase: 3 });
  if (!byPressure) {
    for (const kind of ['cut-in', 'cut-out', 'fill-time'] as const)
      missing.push({ kind, reason: 'not-by-pressure' });
  } else {
    take('cut-in', cycle.cutInKpa, 'no-sensor');
    const full = !cycle.flags.includes('no-cut-out');
    take('cut-out', full ? cycle.cutOutKpa : undefined, full ? 'no-sensor' : 'not-reached');
    take('fill-time', full ? cycle.ranS : undefined, 'not-reached');
  }
  const { started, stopped, flags } = cycle;
  return { is: 'done', started, stopped, readings, missing, coarse: flags.includes('coarse') };
}
