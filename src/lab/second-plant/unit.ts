/**
 * One pump with its motor on its cable: it starts, runs, is stopped by its overload or its
 * protector, and delivers what the head lets it.
 */
import { inflow } from './aquifer.ts';
import { lockedRotorAmps, runningAmps, serviceAmps, speedAt, stepOverload } from './motor.ts';
import { frictionSlope, headOfKpa } from './pipe.ts';
import type { PumpPlan } from './plan.ts';
import { pumpFlows, shaftW } from './pump-curve.ts';
import type { Second, Unit } from './state.ts';

/** The water column gets going within about this (common practice, no source). */
const COLUMN_S = 0.4;
/**
 * Churning air, or alone on its shaft, over power at the best point (common practice, no source).
 */
const IN_AIR = 0.3;
const MOTOR_ALONE = 0.06;
/** A drive's own losses and its rectifier on one phase (common practice, no source). */
const DRIVE_EFFICIENCY = 0.95;
const DRIVE_POWER_FACTOR = 0.68;
/** Current unbalance over voltage unbalance: 6 to 10 (shared/reference-values.md, 2.5). */
const UNBALANCE_GAIN = 7;
/** A constant-pressure valve never shuts: it lets 0.06 L/s, 1 gpm, by to cool the motor. */
const VALVE_BYPASS_L_PER_S = 0.06;

export function newUnit(plan: PumpPlan): Unit {
  return {
    plan,
    on: false,
    onS: 0,
    startS: 0,
    speed: 0,
    flowLPerS: 0,
    amps: 0,
    overload: { heat: 0, tripped: false },
    lightS: 0,
    waitsUntilMs: 0,
    windowAs: Array.from({ length: plan.phase }, () => 0),
    meanA: Array.from({ length: plan.phase }, () => 0),
  };
}

/** Switches and moves on; true where the circuit has just closed or opened. */
export function stepUnit(second: Second, unit: Unit, called: boolean, dtS: number): boolean {
  const { condition, tMs } = second;
  const live = condition.supplyOn && condition.breakerClosed;
  const on = called && live && !unit.overload.tripped && tMs >= unit.waitsUntilMs;
  const changed = on !== unit.on;
  unit.on = on;
  if (changed) {
    unit.onS = 0;
    unit.lightS = 0;
    unit.startS = startSeconds(second, unit);
  }
  if (on) {
    unit.onS += dtS;
    if (unit.onS <= unit.startS) holdStart(second, unit);
    else run(second, unit, dtS);
    protect(second, unit, dtS);
  } else if (changed || unit.amps > 0) {
    unit.amps = 0;
    unit.speed = 0;
    unit.flowLPerS = 0;
  }
  if (on || unit.overload.heat > 0.01) stepOverload(unit.overload, heatRatio(second, unit), dtS);
  return changed;
}

function startSeconds({ condition, plan, random, supplyRatio }: Second, { plan: pump }: Unit): number {
  if (plan.control.is === 'variable-speed') return 0;
  const fails =
    condition.rotorStuck || (pump.phase === 3 && condition.legLost) || random.next() < condition.startFails;
  if (fails) return Number.POSITIVE_INFINITY;
  // Torque goes with the square of volts, so a start on low volts takes longer.
  return (0.25 + 0.25 * random.next()) / Math.max(0.3, supplyRatio * condition.voltRatio) ** 2;
}

function holdStart(second: Second, unit: Unit): void {
  const volts = second.supplyRatio * second.condition.voltRatio;
  // The cable takes its part of the volts while the rotor stands.
  const locked = lockedRotorAmps(unit.plan, volts);
  unit.amps = locked / (1 + (locked * unit.plan.cableOhm) / unit.plan.volts);
  unit.speed = 0;
  unit.flowLPerS = 0;
}

function run(second: Second, unit: Unit, dtS: number): void {
  const { condition, plan, driveSpeed } = second;
  const { plan: pump } = unit;
  const byDrive = plan.control.is === 'variable-speed';
  const drop = (unit.amps * pump.cableOhm) / pump.volts;
  const voltRatio = Math.max(0.3, second.supplyRatio * condition.voltRatio - (byDrive ? 0 : drop));
  const { wantedLPerS, impellerLPerS, gas } = flows(second, unit);
  unit.flowLPerS += (wantedLPerS - unit.flowLPerS) * Math.min(1, dtS / COLUMN_S);
  const bestW = shaftW(pump, unit.speed, pump.bestLPerS);
  const wetW = shaftW(pump, unit.speed, impellerLPerS) * condition.dragRatio;
  const turnsW = condition.shaftBroken ? MOTOR_ALONE * bestW : wetW + gas * (IN_AIR * bestW - wetW);
  unit.speed = byDrive ? driveSpeed : speedAt(pump.motor, turnsW, voltRatio);
  const load = { shaftW: turnsW, voltRatio: byDrive ? 1 : voltRatio, reactiveRatio: condition.reactiveRatio };
  const { amps, inputW } = runningAmps(pump, load);
  unit.amps = byDrive
    ? inputW / DRIVE_EFFICIENCY / (pump.volts * voltRatio * DRIVE_POWER_FACTOR * Math.sqrt(pump.phase))
    : amps;
}

/** What it delivers and moves, and how much of it is air where the water has come down to it. */
function flows(second: Second, unit: Unit): { wantedLPerS: number; impellerLPerS: number; gas: number } {
  const { condition, plan, kpa, levelM, aquifer, random } = second;
  const { plan: pump } = unit;
  if (condition.shaftBroken) return { wantedLPerS: 0, impellerLPerS: 0, gas: 0 };
  if (condition.airLocked) return { wantedLPerS: 0, impellerLPerS: 0, gas: 0.9 };
  const duty = {
    speed: unit.speed,
    staticM: levelM + headOfKpa(kpa),
    lossM: frictionSlope(pump.dropPipe, unit.flowLPerS) + condition.valveLoss,
    ringLeak: condition.ringLeak,
    hole: condition.dropPipeHole,
  };
  const { delivered, impeller } = pumpFlows(pump, duty);
  const limitLPerS = valveLimit(second);
  const wanted = Math.min(delivered, limitLPerS);
  const isShort = levelM >= plan.aquifer.intakeM - 0.3;
  if (!isShort) return { wantedLPerS: wanted, impellerLPerS: impeller - delivered + wanted, gas: 0 };
  const comes = inflow(plan.aquifer, aquifer, condition.screenOpen) * (0.5 + random.next());
  const got = Math.min(wanted, comes);
  return { wantedLPerS: got, impellerLPerS: got, gas: wanted > 0 ? 1 - got / wanted : 1 };
}

/** A constant-pressure valve throttles to what is drawn, once its pressure is reached. */
function valveLimit({ plan: { control }, kpa, drawnLPerS }: Second): number {
  if (control.is !== 'constant-pressure-valve' || kpa < control.setKpa) return Number.POSITIVE_INFINITY;
  return Math.max(VALVE_BYPASS_L_PER_S, drawnLPerS);
}

/** A protector that senses load stops a pump that runs light. */
function protect({ plan: { protector }, tMs }: Second, unit: Unit, dtS: number): void {
  if (protector === undefined || unit.onS < 3) return;
  const isLight = unit.amps < protector.lightRatio * serviceAmps(unit.plan);
  unit.lightS = isLight ? unit.lightS + dtS : 0;
  if (unit.lightS >= protector.lightS) unit.waitsUntilMs = tMs + 1000 * protector.restartS;
}

/** Current over the plate's service-factor amps, of the line that is worst. */
function heatRatio({ condition, plan }: Second, unit: Unit): number {
  if (!unit.on || plan.control.is === 'variable-speed') return 0;
  const lines = lineAmps(unit, condition.lineRatios, condition.legLost);
  return Math.max(...lines) / serviceAmps(unit.plan);
}

/** By line: unlike volts make currents several times as unlike; a lost leg loads the other two. */
export function lineAmps(
  { plan, amps }: Unit,
  lineRatios: readonly [number, number, number],
  legLost: boolean,
): number[] {
  if (plan.phase === 1) return [amps];
  if (legLost) return [0, amps * Math.sqrt(3), amps * Math.sqrt(3)];
  const mean = (lineRatios[0] + lineRatios[1] + lineRatios[2]) / 3;
  return lineRatios.map((ratio) => amps * Math.max(0, 1 + UNBALANCE_GAIN * (ratio / mean - 1)));
}
