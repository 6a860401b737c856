/**
 * What is said of a pump that lifts no water: the figures, the run limit that its runs have shown,
 * and what may be behind it.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import type { DryFigures } from '../../../../shared/text/en/alarms/pump/dry-run.ts';
import type { Active } from '../evaluation.ts';
import { estimateOverpumping, type Overpumping } from './overpumping.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import type { NormalLoad } from './normal-load.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Over this share of the usual a pump against a closed valve is as likely as one without water. */
const CLOSED_VALVE_RATIO = 0.65;
/** Over this a well that gives only a little lets some water through. */
const LITTLE_WATER_RATIO = 0.7;

/** Whole minutes are judged: low since the first of them. */
const MAX_FIRST_MS = 60_000;
/** Most wells that are pumped down have water again by then (common practice, no source). */
const LONG_REST_S = 4 * HOUR_S;

export interface DryObservation {
  amps: number;
  kpa: number | undefined;
  sinceMs: number;
  /** Of its usual power, where that was measured and is low. */
  powerRatio?: number;
  /** How long this run drew as usual before, s: it had water and lost it. */
  ranNormallyS?: number;
}

export function dryFinding(scene: Scene, usual: NormalLoad, observation: DryObservation): Active {
  // Power says how much a motor does; current says so less the smaller the motor is.
  const ratio = observation.powerRatio ?? observation.amps / usual.amps;
  const overpumping = estimateOverpumping(scene);
  const figures = dryFigures(scene, usual, observation, overpumping);
  const level = scene.well.minutes[scene.well.minutes.length - 1]?.levelM?.mean;
  return {
    is: 'active',
    sinceMs: observation.sinceMs,
    ...(observation.ranNormallyS === undefined
      ? { reason: 'dry-low-current', figures }
      : { reason: 'dry-current-fell', figures: { ...figures, ranNormallyS: observation.ranNormallyS } }),
    evidence: {
      amps: roundTo(observation.amps),
      normalAmps: roundTo(usual.amps),
      ratio: roundTo(observation.amps / usual.amps),
      ...(observation.powerRatio !== undefined && { powerShare: roundTo(observation.powerRatio) }),
      ...(observation.kpa !== undefined && { kpa: roundTo(observation.kpa, 0) }),
      ...(level !== undefined && { levelM: roundTo(level, 1) }),
      ...(observation.ranNormallyS !== undefined && { wellForS: roundTo(observation.ranNormallyS, 0) }),
      ...(overpumping && { runLimitS: roundTo(overpumping.limitS, 0) }),
      ...(overpumping?.restS !== undefined && { restS: roundTo(overpumping.restS, 0) }),
    },
    causes: causesOf(scene, observation, ratio, level),
  };
}

/** The figures that every reason of a dry run holds (shared/text/en/alarms/pump/dry-run.ts). */
function dryFigures(
  scene: Scene,
  usual: NormalLoad,
  { amps, kpa, powerRatio }: DryObservation,
  overpumping: Overpumping | undefined,
): DryFigures {
  return {
    amps,
    referenceA: usual.amps,
    reference: usual.learned ? 'normal' : 'motor-maximum',
    isRunning: scene.pump.run !== undefined,
    ...(powerRatio !== undefined && { powerRatio }),
    water: powerRatio === undefined && amps > LITTLE_WATER_RATIO * usual.amps ? 'little-or-none' : 'none',
    ...(kpa !== undefined && { kpa }),
    ...(overpumping && { runLimitS: overpumping.limitS }),
    ...(overpumping?.restS !== undefined && { recoveryS: overpumping.restS }),
  };
}

/**
 * Low from the first seconds although the well had hours to fill: water would have come for a
 * while.
 */
function isUnloadedAfterRest({ pump }: Scene, { sinceMs }: DryObservation): boolean {
  const { run, cycles } = pump;
  const last = cycles[cycles.length - 1];
  // Of a run that is over the rest before it is its own.
  const startedMs = run?.startedMs ?? last?.startedMs;
  const restedS = run && last ? (run.startedMs - last.stoppedMs) / 1000 : last?.restedS;
  if (startedMs === undefined || restedS === undefined) return false;
  return sinceMs - startedMs <= MAX_FIRST_MS && restedS >= LONG_REST_S;
}

function causesOf(
  scene: Scene,
  observation: DryObservation,
  ratio: number,
  level: number | undefined,
): Active['causes'] {
  const dry = level !== undefined && level < 1;
  const wet = level !== undefined && level > 3;
  const booster = scene.pump.card.kind === 'booster';
  const lostWater = observation.ranNormallyS !== undefined;
  const unloaded = !lostWater && isUnloadedAfterRest(scene, observation);
  // A pump against a closed valve stirs its water and draws more than one that has none.
  const stirs = ratio > CLOSED_VALVE_RATIO;
  const displaces = scene.pump.card.kind === 'positive-displacement';
  const valve = displaces ? 0 : stirs ? 0.45 : observation.kpa === undefined ? 0.25 : 0.08;
  return weighCauses({
    'low-well': booster ? 0 : dry ? 0.9 : wet ? 0.05 : lostWater ? 0.75 : unloaded ? 0.2 : stirs ? 0.3 : 0.4,
    'store-empty': booster ? 0.6 : 0,
    // It turns from the first second as it does ever after.
    'broken-shaft': lostWater || stirs ? 0 : unloaded ? 0.3 : 0.1,
    'air-lock': lostWater ? 0 : 0.06,
    'lost-prime': scene.pump.card.kind === 'jet' ? 0.5 : scene.pump.card.kind === 'submersible' ? 0.05 : 0.2,
    'closed-valve': lostWater ? valve / 2 : valve,
    'broken-pipe': observation.kpa === undefined ? 0.05 : 0.1,
    'worn-pump': 0.1,
  });
}
