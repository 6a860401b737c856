/**
 * A reference reading with a guide: somebody opens a tap, the pump starts, the tap is shut, the pump fills the tank and stops. This says
 * how far it is and what to do next, and in the end what that run showed. Only a run that began after the guide did counts.
 */
import type { CycleEvent } from '../../shared/api/events.ts';
import type { Control } from '../card/card.ts';

export interface GuideNow {
  /** When the guide began; by our clock, as `nowMs`. */
  sinceMs: number;
  nowMs: number;
  control: Control;
  /** The newest reading of this pump's current; absent where none ever came. */
  heardMs?: number;
  running?: boolean;
  runningSinceMs?: number;
  /** Of this pump, that stopped after the guide began, oldest first. */
  cycles: readonly CycleEvent[];
  /** How long a run of this pump usually takes. */
  usualRanS?: number;
}

export type GuidedWhat = 'amps' | 'cut-in' | 'cut-out' | 'fill-time';

export interface GuidedReading {
  what: GuidedWhat;
  si: number;
  /** The line of a three-phase motor. */
  line?: 2 | 3;
}

export type GiveUp = 'unheard' | 'no-start' | 'no-stop';
export type Missing = 'no-sensor' | 'not-reached' | 'not-by-pressure';

export type GuidedRun =
  /** Nothing comes from the clamp, so nothing can be seen of a run. */
  | { is: 'unheard'; silentS?: number }
  | { is: 'runs-already'; ranS?: number }
  | { is: 'waiting'; waitedS: number }
  | { is: 'running'; ranS: number; long: boolean }
  /** It ended, but with a hole in the readings or without turning. */
  | { is: 'unusable'; because: 'gap' | 'failed-start' }
  | { is: 'gave-up'; because: GiveUp }
  | {
      is: 'done';
      started: string;
      stopped: string;
      readings: GuidedReading[];
      missing: { what: GuidedWhat; because: Missing }[];
      /** Readings over 3 s apart: the pressures lie on straight lines through what was read. */
      coarse: boolean;
    };

/** A clamp that speaks at all speaks within the longest gap of sending by exception (contract, section 2). */
const SILENT_MS = 90_000;
/** A tap fully open empties the largest common tank's drawdown in this (40 gal at 2 gpm). */
const GIVE_UP_START_MS = 30 * 60_000;
/** A tank of any size that fills with all taps shut is full in this. */
const GIVE_UP_STOP_S = 3600;
/** Longer than this many usual runs, or than this: perhaps a tap is still open. */
const LONG_RUNS = 2;
const LONG_S = 600;

export function guidedRun(now: GuideNow): GuidedRun {
  const own = now.cycles.filter(({ started }) => Date.parse(started) >= now.sinceMs);
  const good = own.findLast((cycle) => unusable(cycle) === undefined);
  if (good) return shown(good, now.control);
  if (now.heardMs === undefined) return { is: 'unheard' };
  const silentMs = now.nowMs - now.heardMs;
  if (silentMs > SILENT_MS) return { is: 'unheard', silentS: silentMs / 1000 };
  if (now.running === true) return runs(now);
  const last = own.at(-1);
  const broken = last && unusable(last);
  if (broken) return { is: 'unusable', because: broken };
  const waitedMs = now.nowMs - now.sinceMs;
  if (waitedMs > GIVE_UP_START_MS) return { is: 'gave-up', because: 'no-start' };
  return { is: 'waiting', waitedS: waitedMs / 1000 };
}

function runs({ nowMs, sinceMs, runningSinceMs, usualRanS }: GuideNow): GuidedRun {
  if (runningSinceMs === undefined) return { is: 'runs-already' };
  const ranS = Math.max(0, nowMs - runningSinceMs) / 1000;
  const own = runningSinceMs >= sinceMs;
  const mostS = Math.max(GIVE_UP_STOP_S, (usualRanS ?? 0) * LONG_RUNS);
  if (own && ranS > mostS) return { is: 'gave-up', because: 'no-stop' };
  if (!own) return { is: 'runs-already', ranS };
  return { is: 'running', ranS, long: ranS > (usualRanS === undefined ? LONG_S : usualRanS * LONG_RUNS) };
}

function unusable({ flags }: CycleEvent): 'gap' | 'failed-start' | undefined {
  if (flags.includes('failed-start')) return 'failed-start';
  return flags.some((flag) => flag === 'gap' || flag === 'clock-step' || flag === 'merged')
    ? 'gap'
    : undefined;
}

function shown(cycle: CycleEvent, control: Control): GuidedRun {
  const readings: GuidedReading[] = [];
  const missing: { what: GuidedWhat; because: Missing }[] = [];
  const take = (what: GuidedWhat, si: number | undefined, because: Missing): void => {
    if (si === undefined) missing.push({ what, because });
    else readings.push({ what, si });
  };
  const byPressure = control === 'pressure-switch' || control === 'constant-pressure-valve';
  take('amps', cycle.amps, 'no-sensor');
  if (cycle.amps2 !== undefined) readings.push({ what: 'amps', si: cycle.amps2, line: 2 });
  if (cycle.amps3 !== undefined) readings.push({ what: 'amps', si: cycle.amps3, line: 3 });
  if (!byPressure) {
    for (const what of ['cut-in', 'cut-out', 'fill-time'] as const)
      missing.push({ what, because: 'not-by-pressure' });
  } else {
    take('cut-in', cycle.cutInKpa, 'no-sensor');
    const full = !cycle.flags.includes('no-cut-out');
    take('cut-out', full ? cycle.cutOutKpa : undefined, full ? 'no-sensor' : 'not-reached');
    take('fill-time', full ? cycle.ranS : undefined, 'not-reached');
  }
  const { started, stopped, flags } = cycle;
  return { is: 'done', started, stopped, readings, missing, coarse: flags.includes('coarse') };
}
