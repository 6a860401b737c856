/**
 * The well of the simulated plant: water stands in a bore, flows in from the ground as the level
 * falls, and the ground near it is drawn down more slowly by a day's use. Where the level falls to
 * the intake the pump sucks air, until it has risen by some decimetres.
 */
import { HOUR_S } from '../../../shared/units/duration.ts';
import type { Condition, HolePlan } from './params.ts';

export interface HoleState {
  /** Fall of the level in the bore, and of the ground water near it, m. */
  drawdownM: number;
  nearM: number;
  sucksAir: boolean;
  /** How far the water must rise over the intake before the pump holds water again, m. */
  recoverM: number;
}

/**
 * The ground farther off gives several times as freely as the bore's own screen, and follows in
 * some hours.
 */
const FAR_YIELD_FACTOR = 4;
const NEAR_TIME_CONSTANT_S = 6 * HOUR_S;

export function newHole(recoverM: number): HoleState {
  return { drawdownM: 0, nearM: 0, sucksAir: false, recoverM };
}

/** Water below the tee, m. */
export function liftM(plan: HolePlan, hole: HoleState, condition: Condition): number {
  return plan.staticLevelM + condition.levelFallM + hole.drawdownM;
}

export function stepHole(
  plan: HolePlan,
  hole: HoleState,
  condition: Condition,
  flow: { pumpedLPerS: number; dtS: number },
): void {
  const { pumpedLPerS, dtS } = flow;
  const yieldLPerSPerM = Math.max(1e-4, plan.yieldLPerSPerM * (1 - condition.yieldLost));
  // Both implicit: a bore of little water follows faster than a step at rest is long.
  const bore = plan.boreLPerM;
  hole.drawdownM =
    (bore * hole.drawdownM + dtS * (pumpedLPerS + yieldLPerSPerM * hole.nearM)) /
    (bore + dtS * yieldLPerSPerM);
  const near = FAR_YIELD_FACTOR * plan.yieldLPerSPerM * NEAR_TIME_CONSTANT_S;
  hole.nearM += (dtS * yieldLPerSPerM * (hole.drawdownM - hole.nearM - FAR_YIELD_FACTOR * hole.nearM)) / near;
  const over = plan.intakeM - liftM(plan, hole, condition);
  if (over <= 0) hole.sucksAir = true;
  else if (over > hole.recoverM) hole.sucksAir = false;
  if (over < 0) hole.drawdownM = plan.intakeM - plan.staticLevelM - condition.levelFallM;
}
