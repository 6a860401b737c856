/**
 * A run that goes on under its cut-in without any rise: the pump does not keep up with what runs
 * out, or lifts little. A field watered with a sprinkler too many looks the same at first, so there
 * it is held against how low and how long it went before.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import { trendRise } from '../../baseline/trend.ts';
import type { Cause } from '../../../../shared/text/en/alarms/kinds.ts';
import { drawsForHours } from '../../domain/uses.ts';
import type { Active } from '../evaluation.ts';
import { peersOf, reportsForGroup } from '../pump-peers.ts';
import { detectGaugeDrop } from '../sensing/gauge-drop.ts';
import { KPA_PER_PSI, normalCutInKpa, lastMinutes, ranThroughout, normalAmpsOf } from '../scene-queries.ts';
import { LONGEST_RUN_MULTIPLE } from './run-too-long.ts';
import { roundTo } from '../round.ts';
import type { MinuteScene, OpenRun, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Under cut-in and not rising for so long: the pump does not keep up. A garden that is too large
 * for the pump looks the same at first.
 */
const MIN_UNDER_KPA = 2 * KPA_PER_PSI;
const DRIVE_UNDER_KPA = 12 * KPA_PER_PSI;
const UNDER_MINUTES = 15;
/** Just under it (by half a psi) it takes longer to be sure. */
const SLIGHTLY_UNDER_KPA = 0.5 * KPA_PER_PSI;
const SLIGHTLY_UNDER_MINUTES = 28;
const MIN_RISE_KPA = 2 * KPA_PER_PSI;
/** Less than the supply makes of it (4 %) and a clamp errs. */
const LITTLE_WATER_RATIO = 0.93;
/**
 * Where fields are watered: this little under cut-in is too much drawn at once, for as long as
 * sprinklers are left in a place. Argued, not measured.
 */
const MAX_OVERDRAWN_KPA = 15 * KPA_PER_PSI;
const MAX_OVERDRAWN_S = 6 * HOUR_S;
/**
 * Runs of which it is remembered how low they drew pressure, and how much lower one more may be.
 */
const DRAWDOWN_RUNS = 6;
const MAX_FURTHER_OVERDRAWN_KPA = 6 * KPA_PER_PSI;

/**
 * The part of a watch's memory that holds how low runs drew the pressure of a field, kPa, and when
 * the last of them began.
 */
export interface DrawdownMemory {
  drawnKpa?: number[];
  drawnMs?: number;
}

/** Undefined where pressure rises, or is known to be drawn so low here. */
export function heldUnderCutInFinding(
  scene: Scene,
  run: OpenRun,
  memory: DrawdownMemory,
): Active | undefined {
  const cutIn = normalCutInKpa(scene);
  if (cutIn === undefined) return undefined;
  // Of several that run together for one pressure, one speaks.
  if (!reportsForGroup(scene) && peersOf(scene).some((other) => other.run)) return undefined;
  // A drive wakes a little under what it holds, and a sprinkler too many takes pressure there: only
  // far under it is something open.
  const driven = scene.pump.card.control === 'variable-speed';
  const minutes =
    minutesHeldUnder(scene, UNDER_MINUTES, cutIn - (driven ? DRIVE_UNDER_KPA : MIN_UNDER_KPA)) ??
    (driven ? undefined : minutesHeldUnder(scene, SLIGHTLY_UNDER_MINUTES, cutIn - SLIGHTLY_UNDER_KPA));
  if (!minutes || detectGaugeDrop(scene)) return undefined;
  const last = minutes[minutes.length - 1]!.kpa!.mean;
  const riseKpa = trendRise(minutes.map((minute) => minute.kpa!.mean));
  if (riseKpa > MIN_RISE_KPA || isOverdrawn(scene, run, memory, last)) return undefined;
  const freezing = (scene.well.minutes[scene.well.minutes.length - 1]?.temperatureC?.mean ?? 20) < 1;
  const little = isLiftingLittle(scene, run);
  const figures = { ranS: run.ranS, kpa: last, cutInKpa: cutIn };
  return {
    is: 'active',
    sinceMs: run.startedMs,
    ...(little
      ? { reason: 'run-under-cut-in-low-current', figures: { ...figures, amps: run.amps ?? 0 } }
      : { reason: 'run-under-cut-in', figures }),
    evidence: {
      ranS: roundTo(run.ranS, 0),
      kpa: roundTo(last, 0),
      cutInKpa: roundTo(cutIn, 0),
      risenKpa: roundTo(riseKpa, 1),
    },
    causes: weighCauses({
      'broken-pipe': freezing ? 0.5 : little ? 0.1 : 0.35,
      'open-tap': little ? 0.05 : 0.25,
      'low-well': little ? 0.25 : 0.15,
      'closed-valve': little ? 0.25 : 0.03,
      'drop-pipe-leak': 0.1,
      'worn-pump': little ? 0.25 : 0.1,
      ...reverseRotationCause(scene),
    }),
  };
}

/**
 * A motor with three leads turns backwards from the day on which two were swapped, and lifts about
 * half: rare but after work on it.
 */
function reverseRotationCause(scene: Scene): Partial<Record<Cause, number>> {
  const { phase, wires } = scene.pump.card;
  return phase === 3 ? { 'wrong-rotation': 0.1 } : wires === 3 ? { 'wrong-rotation': 0.05 } : {};
}

/**
 * A field watered with a sprinkler too many: under cut-in for as long as that takes, or took
 * before; a little, or as far as it did before.
 */
function isOverdrawn(scene: Scene, run: OpenRun, memory: DrawdownMemory, kpa: number): boolean {
  const { uses } = scene.well.card;
  if (!drawsForHours(uses) && !uses.includes('stock')) return false;
  // Pumps that take turns share what is watered: what one did the other may.
  const longest = Math.max(
    0,
    ...[scene.pump, ...peersOf(scene)].flatMap(({ baseline, pinned }) => [
      baseline?.longestRunS ?? 0,
      pinned?.longestRunS ?? 0,
    ]),
  );
  const cutIn = normalCutInKpa(scene) ?? 0;
  const lowest = Math.min(cutIn - MAX_OVERDRAWN_KPA, priorLowKpa(run, memory) - MAX_FURTHER_OVERDRAWN_KPA);
  // As long as it did before it needs nothing new, however low that is.
  if (
    run.ranS > longest &&
    !(kpa > lowest && run.ranS < Math.max(MAX_OVERDRAWN_S, LONGEST_RUN_MULTIPLE * longest))
  )
    return false;
  recordLowPressure(run, memory, kpa);
  return true;
}

/**
 * How low pressure stood in the runs before this one that were a field's: the middle of them, where
 * there were two.
 */
function priorLowKpa(run: OpenRun, memory: DrawdownMemory): number {
  const levels = (memory.drawnKpa ?? []).slice(0, memory.drawnMs === run.startedMs ? -1 : undefined);
  return levels.length < 2 ? Infinity : median(levels)!;
}

function recordLowPressure(run: OpenRun, memory: DrawdownMemory, kpa: number): void {
  const levels = [...(memory.drawnKpa ?? [])];
  const own = memory.drawnMs === run.startedMs ? levels.pop() : undefined;
  memory.drawnMs = run.startedMs;
  memory.drawnKpa = [...levels, roundTo(Math.min(own ?? kpa, kpa), 0)].slice(-DRAWDOWN_RUNS);
}

/**
 * At low pressure a pump lifts more and draws more than at mid-band: clearly less current there is
 * little water, whatever is open.
 */
function isLiftingLittle(scene: Scene, run: OpenRun): boolean {
  const usual = normalAmpsOf(scene);
  if (scene.pump.card.control !== 'pressure-switch' || usual === undefined || run.amps === undefined)
    return false;
  return run.amps < LITTLE_WATER_RATIO * usual;
}

/** The last minutes, where the pump ran and pressure was under `kpa` through all of them. */
function minutesHeldUnder(scene: Scene, count: number, kpa: number): MinuteScene[] | undefined {
  const minutes = lastMinutes(scene, count);
  if (!minutes || !ranThroughout(scene, minutes)) return undefined;
  return minutes.every((minute) => minute.kpa && minute.kpa.high < kpa) ? minutes : undefined;
}
