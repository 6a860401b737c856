/**
 * Running current under its normal: the pump does less work. Worn impellers and a falling water
 * level take current away over weeks, a closed valve or a broken shaft at once; what pressure did
 * meanwhile parts them.
 */
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
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
import { fillLengthRatio, MAX_GENERATOR_MS, normalSwitchFillS, SHIFT_WINDOW_RUNS } from './fill-length.ts';
import { recentCycles } from '../scene-queries.ts';
import { fillErrorS } from '../pump/fill-times.ts';
import { levelFall, type LevelMemory } from '../pump/level-fall.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * As few as have a quarter of fills without draws, so that they are of the same days as the amps.
 */
const FILL_RUNS = 10;
/** A quarter of a house's fills have no draw: of so few the shorter half still holds one. */
const MIN_WEAK_RUNS = 6;
/**
 * Fills of the same length to this share, while current fell by more than this: jaws that do not
 * close, or a scale that was changed.
 */
const UNCHANGED_FILL_TOLERANCE = 0.05;
const MIN_CLAMP_DROP = 0.03;
/**
 * A small generator under load runs down to 57 Hz and less: a twentieth of the speed takes a
 * seventh of the power and lengthens the fills as wear does (affinity laws). Without volts only its
 * end tells it from wear; it stands in for the grid for two days or three.
 */
const MAX_GENERATOR_DROP = 0.14;
const MIN_GENERATOR_FILL_RATIO = 1.05;
/**
 * A share of speed takes thrice that of power and some 2.4 times that of current; of the flow,
 * against two thirds to four fifths of the shut-off head, three to five times that (affinity laws,
 * head falling with the square of flow; reckoned, not measured): twice the current at most. Fills
 * that lengthen by far more, for so little current, are throttled by a valve.
 */
const MAX_GENERATOR_FILL_PER_AMPS = 3.5;
/** Fills that take so much longer are part of the reason. */
const LONGER_FILL_RATIO = 1.1;

interface AmpsLowMemory extends ShiftMemory, LevelMemory {
  /** Since when less current and longer fills have gone together. */
  weakSinceMs?: number;
}

export const ampsLow: Watch<AmpsLowMemory> = {
  alarm: 'amps-low',
  scope: 'pump',
  triggers: ['cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: AmpsLowMemory): Evaluation {
  const levelFallM = levelFall(scene, memory);
  const shift = ampsShift(scene, memory);
  if (shift.is === 'clear') delete memory.maybeSupply;
  if (shift.is === 'clear' || (shift.is === 'shift' && shift.direction === 'high')) delete memory.weakSinceMs;
  if (shift.is !== 'shift') return shift;
  if (shift.direction !== 'low') return CLEAR;
  return mayBeGenerator(scene, memory, shift)
    ? cannotTell('may-be-generator')
    : finding(scene, memory, shift, levelFallM);
}

/** Less current and longer fills, since less than three days; the memory keeps since when. */
function mayBeGenerator(scene: Scene, memory: AmpsLowMemory, shift: AmpsShift): boolean {
  const weak = weakRuns(scene, shift);
  const ampsDrop = 1 - (median(weak.map(({ amps }) => amps!)) ?? shift.amps) / shift.normal;
  const fills = fillLengthRatio(scene, weak) ?? 1;
  if (hasVolts(scene) || ampsDrop > MAX_GENERATOR_DROP) return false;
  if (fills < MIN_GENERATOR_FILL_RATIO || fills - 1 > MAX_GENERATOR_FILL_PER_AMPS * ampsDrop) return false;
  memory.weakSinceMs ??= scene.atMs;
  return scene.atMs - memory.weakSinceMs < MAX_GENERATOR_MS;
}

function finding(
  scene: Scene,
  memory: AmpsLowMemory,
  shift: AmpsShift,
  levelFallM: number | undefined,
): Active {
  const fills = fillTimeRatio(scene, shift);
  const supplyPossible = !isThrottled(fills, shift) && mayBeSupply(scene, memory, shift);
  const supply = supplyPossible ? 0.8 : hasVolts(scene) ? supplyWeight(shift) : 0.08;
  return {
    is: 'active',
    sinceMs: shift.sinceMs,
    reason: 'current-below-normal',
    figures: {
      ...shiftFigures(shift, supplyPossible),
      ...(fills !== undefined && fills > LONGER_FILL_RATIO && { fillRatio: fills }),
    },
    evidence: {
      amps: roundTo(shift.amps),
      normalAmps: roundTo(shift.normal),
      share: roundTo(shift.deviation, 3),
      runs: shift.runs,
      ...supplyEvidence(scene, shift),
      ...(fills !== undefined && { fillShare: roundTo(fills) }),
      ...(levelFallM !== undefined && { levelFallM }),
    },
    causes: causesOf(scene, shift, { fills, supply, isThrottled: isThrottled(fills, shift) }),
  };
}

/**
 * The last runs that the shift is of: the older ones among them drew as ever, and filled as ever.
 */
function weakRuns(scene: Scene, { amps, normal }: AmpsShift): Cycle[] {
  const midAmps = (amps + normal) / 2;
  return recentCycles(scene, SHIFT_WINDOW_RUNS).filter(
    (cycle) => cycle.amps !== undefined && cycle.amps < midAmps,
  );
}

/**
 * Fills that lengthen by far more than current falls are no supply's: water meets a valve or a
 * plugged filter, or runs back.
 */
function isThrottled(fills: number | undefined, { deviation }: AmpsShift): boolean {
  return (
    fills !== undefined &&
    fills > LONGER_FILL_RATIO &&
    fills - 1 > MAX_GENERATOR_FILL_PER_AMPS * Math.abs(deviation)
  );
}

/**
 * The shortest fills now against the shortest as learnt: over 1, less is delivered. Of a step only
 * the fills since then tell: the older among the last ten filled as ever.
 */
function fillTimeRatio(scene: Scene, shift: AmpsShift): number | undefined {
  const last = recentCycles(scene, FILL_RUNS);
  const weak = shift.isDrift ? [] : weakRuns(scene, shift);
  const runs = weak.length >= MIN_WEAK_RUNS && weak.length < FILL_RUNS ? weak : last;
  const share = last.length < FILL_RUNS ? undefined : fillLengthRatio(scene, runs);
  if (share === undefined) return undefined;
  // Readings 10 s apart know the length of a fill to no better than that.
  const grain = Math.max(...runs.map(fillErrorS));
  return Math.abs(share - 1) * normalSwitchFillS(scene)! <= grain ? 1 : share;
}

function causesOf(
  scene: Scene,
  shift: AmpsShift,
  { fills, supply, isThrottled }: { fills: number | undefined; supply: number; isThrottled: boolean },
): Active['causes'] {
  // One that displaces its water draws less where it lifts against less: a valve is open, not shut.
  const displaces = scene.pump.card.kind === 'positive-displacement';
  const weak = fills !== undefined && fills > 1.05;
  // A pump that lifts as much as ever at the same pressures does as much work as ever: less current
  // is then the clamp's.
  const unchangedFills =
    fills !== undefined &&
    Math.abs(fills - 1) < UNCHANGED_FILL_TOLERANCE &&
    Math.abs(shift.deviation) > MIN_CLAMP_DROP;
  return weighCauses({
    'worn-pump': weak || shift.isDrift ? 0.45 : 0.3,
    'low-well': 0.2,
    'closed-valve': displaces ? 0 : isThrottled ? 0.4 : shift.isDrift ? 0.08 : 0.2,
    'drop-pipe-leak': displaces ? 0.15 : 0,
    'broken-pipe': displaces ? 0.1 : 0,
    'plugged-filter': isThrottled && !displaces ? 0.15 : 0,
    'plugged-screen': 0.05,
    'failing-motor': 0.05,
    'clamp-off': unchangedFills ? (supply > 0.5 ? 0.3 : 0.9) : weak ? 0.02 : 0.05,
    'supply-voltage': supply,
  });
}
