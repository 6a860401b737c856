/**
 * Did the gauge fall, and not the pressure? A tank loses its pressure only as its water leaves:
 * from one reading to the next it can't be empty, and a switch that feels no pressure starts its
 * pump. A gauge that lost its plug reads nothing from one reading to the next, the same to its last
 * digit from then on, and no pump wakes for it. Without a tank that can be reckoned with this is
 * not known.
 */
import { tankOf, waterInTankL } from '../../hydraulics/tank.ts';
import { normalCutInKpa, isAfterReset, KPA_PER_PSI, usesPressure } from '../scene-queries.ts';
import type { PumpScene, Scene } from '../scene.ts';

export interface GaugeDrop {
  sinceMs: number;
  fromKpa: number;
  toKpa: number;
  /** Between the two readings, s, and the water that the tank held before, L. */
  stepS: number;
  waterL: number;
  /**
   * Has a pump that works on this pressure begun a run since? Then it had power, and its switch
   * water to wait for.
   */
  ranSince: boolean;
}

/** No more than a gauge's offset from nothing. */
const MAX_ZERO_OFFSET_KPA = 2 * KPA_PER_PSI;
/** A precharge is set within so much of what the card says (2 psi; common practice, no source). */
const PRECHARGE_TOLERANCE_KPA = 2 * KPA_PER_PSI;
/**
 * L/s that leave a house by no tap: 30 gpm (common practice, no source). Where the switch cuts off
 * at low pressure, so that rest proves nothing, what a 1-inch port torn off at 60 psi lets out: 0.6
 * x 5.1 cm² x sqrt(2 x 414 kPa / 1,000 kg/m³) = 9 L/s, the orifice's formula.
 */
const MAX_OUTFLOW_L_PER_S = { taps: 2, port: 10 };
/** A switch that feels no pressure has its pump running by then, and seen to run. */
const MAX_START_DELAY_MS = 120_000;

/**
 * The fall of the gauge that `pump` works by, as long as it has read the same since; undefined
 * where there was none or it may be the water's.
 */
export function detectGaugeDrop(scene: Scene, pump: PumpScene = scene.pump): GaugeDrop | undefined {
  const name = pump.hasOwnPressure ? `${pump.card.id}/pressure` : 'pressure';
  const flat = scene.well.channels.find((one) => one.channel === name)?.flat;
  if (!flat || flat.stepMs <= 0 || !isAfterReset(scene, flat.sinceMs - flat.stepMs)) return undefined;
  const toKpa = flat.value / 1000;
  const fromKpa = flat.before / 1000;
  if (Math.abs(toKpa) > MAX_ZERO_OFFSET_KPA) return undefined;
  const heldL = waterBeforeDropL(scene, fromKpa);
  const stepS = flat.stepMs / 1000;
  const { lowCutOffKpa } = scene.well.card.switch;
  const maxOutflow = lowCutOffKpa === undefined ? MAX_OUTFLOW_L_PER_S.taps : MAX_OUTFLOW_L_PER_S.port;
  if (heldL / stepS < maxOutflow) return undefined;
  const pumps = pump.hasOwnPressure
    ? [pump]
    : scene.pumps.filter((one) => !one.hasOwnPressure && usesPressure(one));
  if (pumps.some((one) => mayHaveStarted(scene, one, flat.sinceMs - flat.stepMs))) return undefined;
  const ranSince = pumps.some((one) => lastStartMs(one) > flat.sinceMs);
  return { sinceMs: flat.sinceMs, fromKpa, toKpa, stepS, waterL: heldL, ranSince };
}

/**
 * By the higher of the air charges that are known, so the least; where none is, the air is taken to
 * stand at cut-in. Near the charge or cut-in none is counted on: there a tank whose pump stays away
 * comes to its bottom, where pressure is gone at once.
 */
function waterBeforeDropL(scene: Scene, kpa: number): number {
  const { card, water } = scene.well;
  const cutIn = normalCutInKpa(scene);
  const charge = card.tank?.prechargeKpa ?? cutIn;
  if (card.tank?.kind !== 'captive-air' || charge === undefined) return 0;
  const prechargeKpa = Math.max(charge, water.prechargeKpa ?? 0);
  const tank = tankOf({ ...card.tank, prechargeKpa }, card.altitudeM);
  return tank && kpa > Math.max(prechargeKpa, cutIn ?? 0) + PRECHARGE_TOLERANCE_KPA
    ? waterInTankL(tank, kpa)
    : 0;
}

function lastStartMs({ run, cycles }: PumpScene): number {
  return run?.startedMs ?? cycles[cycles.length - 1]?.startedMs ?? -Infinity;
}

/**
 * It began a run as pressure would call for one, is called for now, or was running already and has
 * not stopped yet.
 */
function mayHaveStarted(scene: Scene, { index, run, cycles }: PumpScene, fellMs: number): boolean {
  if (scene.well.minutes[scene.well.minutes.length - 1]?.pumps[index]?.callsForWater === true && !run)
    return true;
  if (run && run.startedMs < fellMs + MAX_START_DELAY_MS) return true;
  return cycles.some((cycle) => cycle.startedMs >= fellMs && cycle.startedMs < fellMs + MAX_START_DELAY_MS);
}
