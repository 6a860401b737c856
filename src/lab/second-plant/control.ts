/**
 * What calls for water: a pressure switch that senses late and never twice at quite the same
 * pressure, a drive that holds one, a float or a clock that fills a store. Contacts can stick or
 * chatter.
 */
import type { Second, SwitchState } from './state.ts';
import { localTime } from './weather.ts';

/** The second of two pumps comes in this much later: 5 psi, common practice, no source. */
const LAG_PUMP_KPA = 35;
/** A drive answers the part of its pressure that is missing, and sums it up (PI; own choice). */
const DRIVE_GAIN = 1.5;
const DRIVE_SUMS_PER_S = 0.7;
const DRIVE_SLOWEST = 0.5;
/** It sleeps where it pumps less than this at its pressure. */
const DRIVE_SLEEPS_L_PER_S = 0.03;
const CHATTERS = 9;

/** How many switches a plan has: one, or one for each pump of a lead and a lag pump. */
export function newSwitches(plan: Second['plan'], kpa: number): SwitchState[] {
  const count = plan.pumps.how === 'lead-lag' ? plan.pumps.pumps.length : 1;
  return Array.from({ length: count }, () => ({
    closed: false,
    sensedKpa: kpa,
    cutInKpa: 0,
    cutOutKpa: 0,
    lockedOut: false,
    chatterLeft: 0,
  }));
}

/** Spring and contacts differ a little each time. */
export function drawPoints(second: Second, at: number): void {
  const { control } = second.plan;
  if (control.is !== 'pressure-switch' && control.is !== 'constant-pressure-valve') return;
  const state = second.switches[at]!;
  const shiftKpa = second.condition.switchShiftKpa - at * LAG_PUMP_KPA;
  state.cutInKpa = control.cutInKpa + shiftKpa + control.scatterKpa * second.random.normal();
  state.cutOutKpa = control.cutOutKpa + shiftKpa + control.scatterKpa * second.random.normal();
}

export function stepControl(second: Second, dtS: number): void {
  const { control } = second.plan;
  switch (control.is) {
    case 'pressure-switch':
    case 'constant-pressure-valve':
      for (let at = 0; at < second.switches.length; at++) stepSwitch(second, at, dtS);
      break;
    case 'variable-speed':
      stepDrive(second, dtS);
      break;
    case 'float': {
      if (second.storeM <= control.onM) setClosed(second, 0, true);
      else if (second.storeM >= control.offM) setClosed(second, 0, false);
      break;
    }
    case 'timer': {
      const { hour } = localTime(second.tMs, second.plan.utcOffsetH);
      const isOn = control.onHours.some((from) => hour >= from && hour < from + control.forMin / 60);
      setClosed(second, 0, isOn);
      break;
    }
    default:
      control satisfies never;
  }
}

function stepSwitch(second: Second, at: number, dtS: number): void {
  const state = second.switches[at]!;
  const { control } = second.plan;
  // Implicit Euler of a first-order lag.
  state.sensedKpa += ((second.kpa - state.sensedKpa) * dtS) / (second.condition.switchLagS + dtS);
  const low = control.is === 'pressure-switch' ? control.lowCutOffKpa : undefined;
  if (low !== undefined && state.sensedKpa < low) state.lockedOut = true;
  if (state.chatterLeft > 0) {
    if (second.tMs % 1000 === 0) {
      state.chatterLeft--;
      state.closed = !state.closed;
    }
    return;
  }
  if (!state.closed && state.sensedKpa <= state.cutInKpa) setClosed(second, at, true);
  else if (state.closed && state.sensedKpa >= state.cutOutKpa) setClosed(second, at, false);
}

function setClosed(second: Second, at: number, closed: boolean): void {
  const state = second.switches[at]!;
  if (state.closed === closed) return;
  state.closed = closed;
  if (closed) second.turn = (second.turn + 1) % second.units.length;
  drawPoints(second, at);
  // An odd number of changes ends where it began, so it ends on the new side with an even one.
  if (second.condition.contacts === 'chatter') state.chatterLeft = CHATTERS - 1;
}

/** The drive runs until nobody draws, and wakes below its pressure. */
function stepDrive(second: Second, dtS: number): void {
  const { control } = second.plan;
  if (control.is !== 'variable-speed') return;
  const state = second.switches[0]!;
  if (!state.closed) {
    second.driveSum = DRIVE_SLOWEST;
    second.driveSpeed = DRIVE_SLOWEST;
    if (second.kpa < control.wakeKpa) state.closed = true;
    return;
  }
  const missing = (control.setKpa + second.condition.switchShiftKpa - second.kpa) / control.setKpa;
  second.driveSum = driveSpeed(second.driveSum + DRIVE_SUMS_PER_S * missing * dtS);
  second.driveSpeed = driveSpeed(second.driveSum + DRIVE_GAIN * missing);
  const [unit] = second.units;
  const isIdle = missing < 0.01 && unit!.onS > 15 && unit!.flowLPerS < DRIVE_SLEEPS_L_PER_S;
  if (isIdle) state.closed = false;
}

function driveSpeed(wanted: number): number {
  return Math.min(1, Math.max(DRIVE_SLOWEST, wanted));
}

/** Whether the circuit of a pump is closed as far as its control goes. */
export function isCalled(second: Second, pump: number): boolean {
  const { contacts } = second.condition;
  if (contacts === 'stuck-open') return false;
  if (contacts === 'stuck-closed') return pump === 0;
  const { how } = second.plan.pumps;
  const state = second.switches[how === 'lead-lag' ? pump : 0]!;
  if (!state.closed || state.lockedOut) return false;
  return how !== 'alternate' || second.turn === pump;
}

/** The `contact` channel: the switch, float or clock asks for water. */
export function asksForWater({ switches }: Second): boolean {
  return switches.some(({ closed }) => closed);
}
