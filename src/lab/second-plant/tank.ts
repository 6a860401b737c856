/**
 * A pressure tank: a mass of air that is squeezed. Boyle's law holds for a slow change; a quick one
 * follows p V^n with n between 1 and 1.4, and what it is too hot or too cold by leaves through the
 * wall within minutes (any textbook of thermodynamics; from memory). Under its precharge the tank
 * is empty and only the pipes give.
 */
import type { TankPlan } from './plan.ts';

/** Pipes that widen and bubbles in them, L for each kPa (common practice, no source). */
const PIPE_GIVES_L_PER_KPA = 0.0015;
/** No tank is quite without air: a bubble at its top stays. */
const LEAST_AIR_L = 0.4;
const WALL_S = 150;

export interface TankState {
  plan: TankPlan;
  atmosphereKpa: number;
  /** Air at the atmosphere's pressure, L. */
  airL: number;
  /** Water in tank and pipes over an empty tank at its precharge; negative: the pipes gave some. */
  waterL: number;
  /** Pressure of the air over that of Boyle's law, as a ratio, less one. */
  excess: number;
}

function chargeL({ volumeL, prechargeKpa }: TankPlan, atmosphereKpa: number): number {
  return (volumeL * (prechargeKpa + atmosphereKpa)) / atmosphereKpa;
}

/** At a gauge pressure, at rest. */
export function newTank(plan: TankPlan, atmosphereKpa: number, gaugeKpa: number): TankState {
  const airL = chargeL(plan, atmosphereKpa);
  const state: TankState = { plan, atmosphereKpa, airL, waterL: 0, excess: 0 };
  state.waterL = plan.volumeL - (airL * atmosphereKpa) / (gaugeKpa + atmosphereKpa);
  return state;
}

/** The charge is now a ratio of what was set; the water stays where it is. */
export function setAir(tank: TankState, ratio: number): void {
  tank.airL = chargeL(tank.plan, tank.atmosphereKpa) * ratio;
}

/** Gauge pressure of the air where no water is in the tank. */
function emptyKpa({ airL, atmosphereKpa, plan }: TankState): number {
  return (airL * atmosphereKpa) / plan.volumeL - atmosphereKpa;
}

/** Nobody draws more than comes at no pressure. */
function leastWaterL(tank: TankState): number {
  const kpa = emptyKpa(tank);
  return kpa > 0 ? -kpa * PIPE_GIVES_L_PER_KPA : tank.plan.volumeL - tank.airL;
}

export function gaugeKpa(tank: TankState): number {
  const { plan, airL, atmosphereKpa, waterL, excess } = tank;
  if (waterL < 0) return Math.max(0, emptyKpa(tank) + waterL / PIPE_GIVES_L_PER_KPA);
  const roomL = Math.max(LEAST_AIR_L, plan.volumeL - waterL);
  return Math.max(0, ((airL * atmosphereKpa) / roomL) * (1 + excess) - atmosphereKpa);
}

/** L that go in for 1 kPa. */
export function givesLPerKpa(tank: TankState): number {
  const { plan, waterL, airL, atmosphereKpa } = tank;
  if (waterL < 0) return PIPE_GIVES_L_PER_KPA;
  const roomL = Math.max(LEAST_AIR_L, plan.volumeL - waterL);
  return (roomL * roomL) / (airL * atmosphereKpa);
}

/** Puts water in (or takes it out) over a time. */
export function stepTank(tank: TankState, inL: number, dtS: number): void {
  const { plan } = tank;
  const roomL = Math.max(LEAST_AIR_L, plan.volumeL - Math.max(0, tank.waterL));
  tank.waterL += inL;
  tank.waterL = Math.min(Math.max(tank.waterL, leastWaterL(tank)), plan.volumeL - LEAST_AIR_L);
  tank.excess += ((plan.polytropic - 1) * inL) / roomL;
  tank.excess -= tank.excess * Math.min(1, dtS / WALL_S);
  if (Math.abs(tank.excess) < 1e-7) tank.excess = 0;
}
