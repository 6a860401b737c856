/**
 * The motor's current: a magnetising part that grows with volts (steeply above nominal) and a
 * working part that is shaft power over volts; so a loaded motor draws more as volts fall, an
 * idling one less. Starting current decays as the shaft comes up to speed. Shapes are usual ones of
 * small submersibles (from memory), fitted to the two currents of the plan.
 */
import type { Condition, PumpPlan } from './params.ts';

/** The magnetising part as a share of the current at no flow. */
const MAGNETIZING_RATIO = 0.55;
/** Starting current in times the full one: six or more in print, less through a long cable. */
const LOCKED_ROTOR_FACTOR = 5.5;
/** A cold motor draws this share more in its first minutes. */
const COLD_RATIO = 0.012;
/** Shaft power left when the pump holds air, as a share of that at no flow. */
const AIR_POWER_RATIO = 0.45;

/** Shaft power between no flow (0) and run-out (1): steep first, flat at the end. */
function loadShape(x: number): number {
  const y = Math.min(1, Math.max(0, x));
  return 1.6 * y - 0.6 * y * y;
}

/** Speed as a share of full: slip grows as volts fall, and with a dragging shaft. */
export function shaftSpeed(condition: Condition, voltRatio: number): number {
  const slip = 0.035 * (1 / (voltRatio * voltRatio) - 1) + 0.05 * condition.drag;
  return Math.max(0, condition.frequencyRatio - slip);
}

export interface Load {
  /** Flow through the pump, L/s. */
  flowLPerS: number;
  speed: number;
  sucksAir: boolean;
  voltRatio: number;
  /** 0 cold, 1 warm. */
  warm: number;
}

/** The working part of the current at nominal volts, A. */
function workingAmps(plan: PumpPlan, condition: Condition, load: Load): number {
  const magnetizing = MAGNETIZING_RATIO * plan.idleFlowAmps;
  const idle = plan.idleFlowAmps * Math.sqrt(1 - MAGNETIZING_RATIO * MAGNETIZING_RATIO);
  const full = Math.sqrt(plan.fullFlowAmps * plan.fullFlowAmps - magnetizing * magnetizing);
  const speed = Math.max(0.05, load.speed);
  if (load.sucksAir) return AIR_POWER_RATIO * idle * speed * speed * speed;
  const runOut = plan.runOutLPerS * (1 - condition.worn) * (condition.backwards ? 0.5 : 1) * speed;
  const turning = idle + (full - idle) * loadShape(load.flowLPerS / runOut);
  return turning * speed * speed * speed * (1 - 0.7 * condition.worn);
}

/** Running current of a line, A, on average over the lines. */
export function runningAmps(plan: PumpPlan, condition: Condition, load: Load): number {
  const v = load.voltRatio;
  const flux = v / condition.frequencyRatio;
  const magnetizing = MAGNETIZING_RATIO * plan.idleFlowAmps * (flux > 1 ? flux ** 3 : flux ** 1.2);
  const working = workingAmps(plan, condition, load) / v;
  const amps = Math.sqrt(magnetizing * magnetizing + working * working);
  return amps * (1 + condition.drag) * (1 + COLD_RATIO * (1 - load.warm));
}

/**
 * Current taken from the supply by a drive, A: it draws power, not magnetising current, and a
 * little for itself.
 */
export function driveAmps(plan: PumpPlan, condition: Condition, load: Load): number {
  const working = workingAmps(plan, condition, load);
  const own = 0.02 * plan.fullFlowAmps;
  return own + (1.05 * working * (1 + condition.drag) * (1 + COLD_RATIO * (1 - load.warm))) / load.voltRatio;
}

/** What a drive draws while its motor rests, A. */
export function driveIdleAmps(plan: PumpPlan): number {
  return 0.01 * plan.fullFlowAmps;
}

/** Current of a locked rotor, A. */
export function lockedRotorAmps(plan: PumpPlan, voltRatio: number): number {
  return LOCKED_ROTOR_FACTOR * plan.fullFlowAmps * voltRatio;
}
