/**
 * Hydraulics of a pump of the simulated plant: a falling head-flow curve under the affinity laws
 * (flow with speed, head with its square), against lift, pressure, pipe friction and whatever valve
 * stands half shut.
 */
import type { Condition, PumpPlan } from './params.ts';

const M_PER_KPA = 1 / 9.80665;
/** Share of the fall of head that goes straight with flow; the rest with its square. */
const LINEAR_RATIO = 0.25;
/** Velocity head of a one-inch pipe, m per (L/s)^2. */
const VELOCITY_HEAD_M = 0.2;
/** A jet narrows behind an opening to this share of it. */
const CONTRACTION = 0.62;

/**
 * Head that a valve takes which shuts this share of the pipe's area, m per (L/s)^2 (Borda-Carnot).
 */
export function shutLossM(shut: number): number {
  if (shut <= 0) return 0;
  const ratio = 1 / (CONTRACTION * Math.max(1e-4, 1 - shut)) - 1;
  const open = 1 / CONTRACTION - 1;
  return VELOCITY_HEAD_M * (ratio * ratio - open * open);
}

/**
 * Flow through the pump, L/s, at a share `speed` of its full speed. Never negative: a check valve
 * holds.
 */
export function pumpFlow(
  plan: PumpPlan,
  condition: Condition,
  at: { liftM: number; kpa: number; speed: number },
): number {
  if (condition.shut >= 1) return 0;
  const half = condition.backwards ? 0.5 : 1;
  const head = plan.shutOffHeadM * (1 - condition.worn) * half;
  const runOut = plan.runOutLPerS * (1 - condition.worn) * half;
  const c = at.liftM + at.kpa * M_PER_KPA - at.speed * at.speed * head;
  if (c >= 0) return 0;
  const a = ((1 - LINEAR_RATIO) * head) / (runOut * runOut) + plan.frictionM + shutLossM(condition.shut);
  const b = (at.speed * LINEAR_RATIO * head) / runOut;
  return (Math.sqrt(b * b - 4 * a * c) - b) / (2 * a);
}
