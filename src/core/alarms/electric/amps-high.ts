/**
 * Running current over its normal, or over the motor's maximum. The second is physical: a motor
 * that draws more than its service factor allows is being cooked, whatever is normal for it.
 */
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import { median } from '../../baseline/robust.ts';
import { FAR_OVER_PLATE_RATIO, OVER_PLATE_RATIO } from '../../domain/motor-tables.ts';
import {
  ampsShift,
  hasVolts,
  mayBeSupply,
  shiftFigures,
  supplyEvidence,
  supplyWeight,
  type AmpsShift,
  type ShiftMemory,
} from './amps-shift.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { fillLengthRatio, MAX_GENERATOR_MS, SHIFT_WINDOW_RUNS } from './fill-length.ts';
import { levelFall, type LevelMemory } from '../pump/level-fall.ts';
import { isCompleteRun, recentCycles } from '../scene-queries.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Over the maximum in the median of so many runs. */
const RUNS = 5;
const MIN_READINGS = 3;
/** So far over it the rotor stood still: a start that failed (../pump/failed-start.ts). */
const LOCKED_ROTOR_RATIO = 2.2;

/**
 * A generator that runs fast or high: without volts only its end tells it from a fault. No fault of
 * a motor makes fills quicker; speed does, by three to five times its own share
 * (./amps-low.ts).
 */
const MAX_GENERATOR_RISE = 0.14;
const MAX_GENERATOR_FILL_RATIO = 0.98;

interface AmpsHighMemory extends ShiftMemory, LevelMemory {
  /** Since when more current and quicker fills have gone together. */
  fastSinceMs?: number;
}

export const ampsHigh: Watch<AmpsHighMemory> = {
  alarm: 'amps-high',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: AmpsHighMemory): Evaluation {
  // Water that stands higher lets a sound pump lift more.
  const levelFallM = levelFall(scene, memory);
  const over = maximumFinding(scene);
  if (over) return over;
  const shift = ampsShift(scene, memory);
  if (shift.is === 'clear') delete memory.maybeSupply;
  if (shift.is === 'clear' || (shift.is === 'shift' && shift.direction === 'low')) delete memory.fastSinceMs;
  if (shift.is !== 'shift') return shift;
  if (shift.direction !== 'high') return CLEAR;
  if (mayBeGenerator(scene, memory, shift)) return cannotTell('may-be-generator');
  const found = shiftFinding(scene, memory, shift);
  return levelFallM === undefined ? found : { ...found, evidence: { ...found.evidence, levelFallM } };
}

/** More current and quicker fills, since less than three days; the memory keeps since when. */
function mayBeGenerator(
  scene: Scene,
  memory: AmpsHighMemory,
  { amps, normal, deviation }: AmpsShift,
): boolean {
  if (hasVolts(scene) || deviation > MAX_GENERATOR_RISE) return false;
  const midAmps = (amps + normal) / 2;
  const fast = recentCycles(
    scene,
    SHIFT_WINDOW_RUNS,
    (cycle) => isCompleteRun(cycle) && (cycle.amps ?? 0) > midAmps,
  );
  if ((fillLengthRatio(scene, fast) ?? 1) > MAX_GENERATOR_FILL_RATIO) return false;
  memory.fastSinceMs ??= scene.atMs;
  return scene.atMs - memory.fastSinceMs < MAX_GENERATOR_MS;
}

function maximumFinding(scene: Scene): Active | undefined {
  const { maxAmps } = scene.pump.card;
  const learnedAmps = scene.pump.pinned?.amps?.median;
  // A clamp that showed more than the maximum from the first day is a wrong card, and told as such
  // (../sensing/sensor-fault.ts).
  if (maxAmps === undefined || learnedAmps === undefined || learnedAmps > OVER_PLATE_RATIO * maxAmps)
    return undefined;
  const last = recentCycles(
    scene,
    RUNS,
    (cycle) =>
      cycle.amps !== undefined &&
      highestLineAmps(cycle) < LOCKED_ROTOR_RATIO * maxAmps &&
      cycle.ranS >= 5 &&
      // One or two readings may be of the start.
      cycle.readings >= MIN_READINGS &&
      !cycle.flags.includes('failed-start'),
  );
  if (last.length < RUNS) return undefined;
  const other = restLoadAmps(scene);
  if (other === undefined && scene.pump.card.alsoOnClamp !== undefined) return undefined;
  const ampsOf = (cycle: Cycle): number => highestLineAmps(cycle) - (other ?? 0);
  if (median(last.map(ampsOf))! <= OVER_PLATE_RATIO * maxAmps) return undefined;
  const over = last.filter((cycle) => ampsOf(cycle) > OVER_PLATE_RATIO * maxAmps);
  const amps = median(over.map(ampsOf))!;
  const isFarOver = amps > FAR_OVER_PLATE_RATIO * maxAmps;
  return {
    is: 'active',
    priority: isFarOver ? 'now' : 'soon',
    sinceMs: over[0]!.startedMs,
    reason: 'current-over-motor-maximum',
    figures: { nowA: amps, maxA: maxAmps, learnedA: learnedAmps },
    evidence: {
      amps: roundTo(amps),
      maxAmps,
      normalAmps: roundTo(learnedAmps),
      runs: over.length,
      ...(isFarOver && FORM_EVIDENCE['over-plate']),
    },
    causes: causesOf(scene, true, 0),
  };
}

/** Of three lines the one that draws most heats its winding. */
function highestLineAmps({ amps = 0, amps2 = 0, amps3 = 0 }: Cycle): number {
  return Math.max(amps, amps2, amps3);
}

/**
 * What the clamp shows while the pump rests, A: it is not the motor's, and stands in the running
 * current too. The highest of the last half hour; undefined where the pump did not rest in it.
 */
function restLoadAmps(scene: Scene): number | undefined {
  const resting = scene.well.minutes
    .map((minute) => minute.pumps[scene.pump.index]?.resting?.mean)
    .filter((amps) => amps !== undefined);
  return resting.length === 0 ? undefined : Math.max(0, ...resting);
}

function shiftFinding(scene: Scene, memory: ShiftMemory, shift: AmpsShift): Active {
  const supplyPossible = mayBeSupply(scene, memory, shift);
  const supply = supplyPossible ? 1 : supplyWeight(shift);
  return {
    is: 'active',
    sinceMs: shift.sinceMs,
    reason: 'current-above-normal',
    figures: shiftFigures(shift, supplyPossible),
    evidence: {
      amps: roundTo(shift.amps),
      normalAmps: roundTo(shift.normal),
      share: roundTo(shift.deviation, 3),
      runs: shift.runs,
      ...supplyEvidence(scene, shift),
    },
    causes: causesOf(scene, false, supply),
  };
}

function causesOf(scene: Scene, over: boolean, supply: number): Active['causes'] {
  const startAmps = scene.cycle?.startAmps;
  const displaces = scene.pump.card.kind === 'positive-displacement';
  return weighCauses({
    'failing-motor': 0.35,
    sand: 0.2,
    'failing-capacitor': scene.pump.card.phase === 3 ? 0 : startAmps === undefined ? 0.2 : 0.15,
    'worn-pump': 0.08,
    // A centrifugal pump that is let run out on its curve lifts more and draws more; one that
    // displaces its water draws more against a shut end.
    'closed-valve': displaces ? 0.25 : 0,
    'plugged-filter': displaces ? 0.15 : 0,
    'drop-pipe-leak': displaces ? 0 : 0.08,
    'broken-pipe': displaces ? 0 : 0.05,
    'water-table-risen': over || displaces ? 0 : 0.12,
    generator: supply > 0 ? 0.05 : 0,
    // Named where somebody was there (shared/text/en/causes/clues.ts).
    serviced: 0.03,
    'supply-voltage': supply > 0 ? supply : hasVolts(scene) ? 0 : over ? 0.1 : 0.15,
  });
}
