/**
 * One pump with its motor, step by step: starts, fails to, trips, waits, runs; what it lifts and
 * what it draws.
 */
import { driveAmps, driveIdleAmps, lockedRotorAmps, runningAmps, shaftSpeed, type Load } from './motor.ts';
import type { PumpPlan } from './params.ts';
import { pumpFlow } from './pump.ts';
import { HEALTHY } from './params.ts';
import type { PumpUnit } from './state.ts';

/** The shaft is up to speed with this time constant, s. */
const SPIN_UP_TIME_S = 0.25;
/**
 * On two of three lines a motor's overload opens after some ten seconds, and closes again after
 * minutes (from memory).
 */
const SINGLE_PHASE_TRIP_S = 40;
const OVERLOAD_WAIT_S = 300;
const WARM_UP_TIME_S = 150;
const COOL_DOWN_TIME_S = 1200;
/** A pump that holds air lifts a dribble, as a share of its run-out. */
const AIR_FLOW_RATIO = 0.02;
/** A second of the finest steps, and some more. */
const RING = 16;

export function newUnit(plan: PumpPlan): PumpUnit {
  return {
    plan,
    condition: HEALTHY,
    state: 'off',
    inS: 0,
    waitS: 0,
    requestedSpeed: 1,
    throughLPerS: 0,
    upLPerS: 0,
    warm: 0,
    amps: 0,
    chargeAs: 0,
    ringMs: Array.from({ length: RING }, () => 0),
    ringAs: Array.from({ length: RING }, () => 0),
    ringAt: 0,
    singleS: 0,
    lowS: 0,
    emptyL: 0,
  };
}

function setState(unit: PumpUnit, state: PumpUnit['state']): void {
  unit.state = state;
  unit.inS = 0;
  unit.singleS = 0;
  unit.lowS = 0;
}

function trip(unit: PumpUnit, waitS: number): void {
  setState(unit, 'tripped');
  unit.waitS = waitS;
}

const hasDeadLine = (unit: PumpUnit): boolean => unit.plan.phase === 3 && unit.condition.deadLeg !== 0;

/** Whether a start would be vain. */
const cannotStart = (unit: PumpUnit): boolean => unit.condition.failsToStartS > 0 || hasDeadLine(unit);

/** Contacts are closed for this pump (`called`) or not. Returns whether it changed its state. */
export function switchUnit(unit: PumpUnit, called: boolean, dtS: number): boolean {
  const { condition, plan, state } = unit;
  unit.inS += dtS;
  const dead = condition.circuitDead;
  if (state === 'tripped') {
    if (unit.inS < unit.waitS) return false;
    setState(unit, 'off');
  }
  if (!called || dead) {
    if (unit.state === 'off') return false;
    setState(unit, 'off');
    return true;
  }
  switch (unit.state) {
    case 'off':
      setState(unit, cannotStart(unit) ? 'locked' : 'runs');
      return true;
    case 'locked':
      if (unit.inS < condition.lockedForS) return false;
      trip(unit, Math.max(condition.failsToStartS, hasDeadLine(unit) ? 60 : 5));
      return true;
    case 'runs':
      unit.singleS += hasDeadLine(unit) ? dtS : 0;
      if (plan.protector)
        unit.lowS = unit.inS > 2 && unit.amps < plan.protector.belowAmps ? unit.lowS + dtS : 0;
      if (unit.singleS > SINGLE_PHASE_TRIP_S) trip(unit, OVERLOAD_WAIT_S);
      else if (plan.protector && unit.lowS > plan.protector.afterS) trip(unit, plan.protector.restartS);
      else return false;
      return true;
    case 'tripped':
      return false;
    default:
      throw new Error(`Cannot switch a pump: no state ${String(unit.state satisfies never)}`);
  }
}

/** What the pump lifts now. `capLPerS` is what a valve after it lets through. */
export function updateFlow(
  unit: PumpUnit,
  at: { liftM: number; kpa: number; sucksAir: boolean; voltRatio: number; capLPerS: number; dtS: number },
): void {
  if (unit.state !== 'runs') {
    unit.throughLPerS = 0;
    unit.upLPerS = 0;
    return;
  }
  const { plan, condition } = unit;
  const speed = speedOf(unit, at.voltRatio);
  const kpa = unit.emptyL > 0 ? 0 : at.kpa;
  let through = pumpFlow(plan, condition, { liftM: at.liftM, kpa, speed });
  if (at.sucksAir) through = Math.min(through, AIR_FLOW_RATIO * plan.runOutLPerS);
  through = Math.min(through, at.capLPerS);
  unit.throughLPerS = through;
  unit.upLPerS = through * (1 - condition.dropPipeLost);
  if (unit.emptyL > 0) {
    unit.emptyL = Math.max(0, unit.emptyL - unit.upLPerS * at.dtS);
    unit.upLPerS = 0;
  }
}

function speedOf(unit: PumpUnit, voltRatio: number): number {
  const up = unit.inS > 2 ? 1 : 1 - Math.exp(-unit.inS / SPIN_UP_TIME_S);
  return unit.requestedSpeed * up * shaftSpeed(unit.condition, voltRatio);
}

/** Sets the current of this moment. `driven`: the clamp sits ahead of a drive. */
export function updateCurrent(
  unit: PumpUnit,
  at: { sucksAir: boolean; voltRatio: number; inrushS: number; driven: boolean; dtS: number },
): void {
  const { plan, condition } = unit;
  if (unit.state === 'runs') unit.warm += ((1 - unit.warm) * at.dtS) / (WARM_UP_TIME_S + at.dtS);
  else unit.warm -= (unit.warm * at.dtS) / (COOL_DOWN_TIME_S + at.dtS);
  if (unit.state === 'locked') unit.amps = lockedRotorAmps(plan, at.voltRatio);
  else if (unit.state !== 'runs') unit.amps = at.driven && !condition.circuitDead ? driveIdleAmps(plan) : 0;
  else {
    const load: Load = {
      flowLPerS: unit.throughLPerS,
      speed: unit.requestedSpeed * shaftSpeed(condition, at.voltRatio),
      sucksAir: at.sucksAir,
      voltRatio: at.voltRatio,
      warm: unit.warm,
    };
    if (at.driven) unit.amps = driveAmps(plan, condition, load);
    else {
      const running = runningAmps(plan, condition, load);
      const rush = unit.inS > 12 * at.inrushS ? 0 : Math.exp(-unit.inS / at.inrushS);
      unit.amps = running + (lockedRotorAmps(plan, at.voltRatio) - running) * rush;
    }
  }
}

/** Keeps what flowed in a step that ended at `tMs`. */
export function recordCharge(unit: PumpUnit, tMs: number, dtS: number): void {
  unit.chargeAs += unit.amps * dtS;
  unit.ringMs[unit.ringAt] = tMs;
  unit.ringAs[unit.ringAt] = unit.chargeAs;
  unit.ringAt = (unit.ringAt + 1) % RING;
}

/**
 * Mean current of a line over the `overS` up to `tMs`, A: a reading that an edge falls into shows a
 * part.
 */
export function meanAmps(unit: PumpUnit, tMs: number, overS: number): number {
  // Nothing has changed within it.
  if (unit.inS > overS + 0.1) return unit.amps;
  const sinceMs = tMs - overS * 1000;
  let [laterMs, laterAs] = [tMs, unit.chargeAs];
  for (let i = 1; i <= RING; i++) {
    const at = (unit.ringAt - i + RING) % RING;
    const ms = unit.ringMs[at]!;
    const as = unit.ringAs[at]!;
    if (ms <= sinceMs) {
      const part = laterMs > ms ? (sinceMs - ms) / (laterMs - ms) : 0;
      return Math.max(0, (unit.chargeAs - as - part * (laterAs - as)) / overS);
    }
    [laterMs, laterAs] = [ms, as];
  }
  return unit.amps;
}

/**
 * Current of each line where this flows on average, A. A missing line's share goes to the others
 * (root of three).
 */
export function lineAmps(unit: PumpUnit, amps: number): number[] {
  if (unit.plan.phase === 1) return [amps];
  const { deadLeg, unevenLegs } = unit.condition;
  return unevenLegs.map((ratio, at) => {
    if (deadLeg === 0) return amps * ratio;
    return deadLeg === at + 1 ? 0 : amps * (unit.state === 'locked' ? 0.866 : 1.732);
  });
}
