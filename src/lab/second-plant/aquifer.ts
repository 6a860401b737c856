/**
 * The well's own level, as two storages in a row: the casing, that the pump draws down within
 * minutes, and the ground close by, that takes hours to come back. Early in a run water comes from
 * the casing (Papadopulos and Cooper, Drawdown in a Well of Large Diameter, Water Resources
 * Research 1967; from memory); later the level falls slowly, as Cooper and Jacob's straight line
 * over the logarithm of time does.
 */
import type { AquiferPlan } from './plan.ts';

export interface AquiferState {
  /** Below the static level, m. */
  casingFallM: number;
  nearFallM: number;
}

export function newAquifer(): AquiferState {
  return { casingFallM: 0, nearFallM: 0 };
}

/** From the near storage into the casing, L/s. */
export function inflow(plan: AquiferPlan, state: AquiferState, screenOpen: number): number {
  return plan.screenLPerSPerM * screenOpen * (state.casingFallM - state.nearFallM);
}

/** Down from the ground. */
export function levelM(plan: AquiferPlan, state: AquiferState, staticFallM: number): number {
  return plan.staticLevelM + staticFallM + state.casingFallM;
}

export function stepAquifer(
  plan: AquiferPlan,
  state: AquiferState,
  { pumpedLPerS, screenOpen, dtS }: { pumpedLPerS: number; screenOpen: number; dtS: number },
): void {
  const fromNear = inflow(plan, state, screenOpen);
  const fromFar = plan.aquiferLPerSPerM * state.nearFallM;
  state.casingFallM = Math.max(0, state.casingFallM + ((pumpedLPerS - fromNear) * dtS) / plan.casingLPerM);
  state.nearFallM = Math.max(0, state.nearFallM + ((fromNear - fromFar) * dtS) / plan.nearLPerM);
}
