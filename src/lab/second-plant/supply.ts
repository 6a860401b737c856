/**
 * Volts at the panel: the plan's ratio, lower in the evening, wandering about within minutes (an
 * autoregressive walk). A country line of this kind keeps within 5 % of its name for most of the
 * time (ANSI C84.1, range A; from memory).
 */
import type { Random } from '../model/random.ts';
import type { SupplyPlan } from './plan.ts';

const WANDERS_S = 600;

export interface SupplyState {
  wander: number;
}

export function stepSupply(plan: SupplyPlan, state: SupplyState, random: Random, dtS: number): void {
  const keeps = Math.exp(-dtS / WANDERS_S);
  state.wander = state.wander * keeps + plan.wander * Math.sqrt(1 - keeps * keeps) * random.normal();
}

/** Over the motor's plate. */
export function supplyRatio(plan: SupplyPlan, state: SupplyState, hour: number): number {
  const evening = Math.exp(-(((hour - 19) / 2.5) ** 2));
  return plan.ratio - plan.eveningDip * evening + state.wander;
}
