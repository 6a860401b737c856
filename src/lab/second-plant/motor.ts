/**
 * An induction motor as its terminals show it: current is the root of an active part that follows
 * load and a magnetizing part that does not. So amps follow load only weakly below half load (US
 * Department of Energy, Determining Electric Motor Load and Efficiency, fact sheet; from memory).
 * The equivalent circuit is that of A. E. Fitzgerald, Electric Machinery; from memory.
 */
import type { MotorPlan, PumpPlan } from './plan.ts';

/** Of the losses at rated load, what does not follow load (common practice, no source). */
const FIXED_LOSS = 0.4;
/**
 * Of the reactive current at rated load, what magnetizes; the rest is leakage, and follows load.
 */
const MAGNETIZING = 0.8;
const NO_LOAD_COPPER = 0.25;

export interface MotorLoad {
  shaftW: number;
  /** At the terminals, over the plate. */
  voltRatio: number;
  /** A run capacitor without effect raises the magnetizing part. */
  reactiveRatio: number;
}

function conductors(phase: 1 | 3): number {
  return phase === 3 ? Math.sqrt(3) : 1;
}

export function ratedAmps({ phase, volts, motor }: PumpPlan): number {
  return motor.ratedW / (motor.efficiency * motor.powerFactor * volts * conductors(phase));
}

/** The plate's service-factor amps: what the motor draws at its service factor. */
export function serviceAmps(pump: PumpPlan): number {
  const { ratedW, serviceFactor } = pump.motor;
  return runningAmps(pump, { shaftW: ratedW * serviceFactor, voltRatio: 1, reactiveRatio: 1 }).amps;
}

/** Speed over speed at rated load: slip grows with load and with the inverse square of volts. */
export function speedAt(motor: MotorPlan, shaftW: number, voltRatio: number): number {
  const slip = (motor.slip * shaftW) / motor.ratedW / (voltRatio * voltRatio);
  return Math.max(0, (1 - Math.min(slip, 0.3)) / (1 - motor.slip));
}

export function runningAmps(pump: PumpPlan, load: MotorLoad): { amps: number; inputW: number } {
  const { motor, volts, phase } = pump;
  const { voltRatio, reactiveRatio } = load;
  const part = load.shaftW / motor.ratedW;
  const lossW = motor.ratedW * (1 / motor.efficiency - 1);
  const square = voltRatio * voltRatio;
  const copper = NO_LOAD_COPPER + ((1 - NO_LOAD_COPPER) * part * part) / square;
  const inputW = load.shaftW + lossW * (FIXED_LOSS * square + (1 - FIXED_LOSS) * copper);
  const active = inputW / (volts * voltRatio * conductors(phase));
  const reactiveAtRated = ratedAmps(pump) * Math.sqrt(1 - motor.powerFactor * motor.powerFactor);
  // Iron that saturates: magnetizing current goes with the square of volts near the plate's.
  const magnetizing = reactiveAtRated * MAGNETIZING * square * reactiveRatio;
  const leakage = (reactiveAtRated * (1 - MAGNETIZING) * part * part) / square;
  return { amps: Math.hypot(active, magnetizing + leakage), inputW };
}

export function lockedRotorAmps(pump: PumpPlan, voltRatio: number): number {
  return ratedAmps(pump) * pump.motor.lockedRotorRatio * voltRatio;
}

/**
 * The overload protector in or at the motor: heat goes with the square of current over the plate's
 * service-factor amps, and a hot motor cools more slowly than it heats. It trips at 118 % for long,
 * and at locked rotor after about ten seconds (common practice, no source).
 */
const HEATS_S = 150;
const COOLS_S = 600;
const TRIPS_AT = 1.4;
const RESETS_AT = 0.6;

export interface Overload {
  heat: number;
  tripped: boolean;
}

export function stepOverload(overload: Overload, ampsRatio: number, dtS: number): void {
  const settlesAt = ampsRatio * ampsRatio;
  const afterS = settlesAt > overload.heat ? HEATS_S : COOLS_S;
  overload.heat += (settlesAt - overload.heat) * -Math.expm1(-dtS / afterS);
  if (overload.heat > TRIPS_AT) overload.tripped = true;
  else if (overload.heat < RESETS_AT) overload.tripped = false;
}
