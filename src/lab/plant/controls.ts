/**
 * What calls for the pump: the contacts of a pressure switch (with jitter, bounce, welded contacts,
 * a low cut-off that latches until somebody holds its lever), a drive that holds pressure by speed,
 * a float, a timer. Sets `control.closed` and, for a drive, the speed.
 */
import { HOUR_MS } from '../../../shared/units/duration.ts';
import type { ControlPlan } from './params.ts';
import type { ControlState, Plant } from './state.ts';

type SwitchPoints = { cutInKpa: number; cutOutKpa: number; jitterKpa?: number; lowCutOffKpa?: number };

/** A sound switch feels pressure through its nipple in this time, s. */
const NIPPLE_S = 0.25;
const BOUNCE_S = 0.3;
/** A drive lifts pressure by this before it sleeps, and takes so long over it. */
const BOOST_KPA = 18;
const BOOST_S = 15;
const QUIET_S = 8;
const MIN_SPEED = 0.5;
/** Gains of the drive: share of speed per kPa, and per kPa and second; ramp, share per second. */
const GAIN = 0.006;
const RESET = 0.002;
const RAMP = 0.4;

export function newControl(kpa: number): ControlState {
  return {
    feltKpa: kpa,
    closed: false,
    latched: false,
    nextInKpa: 0,
    nextOutKpa: 0,
    movedS: 1e3,
    bounces: 0,
    activePump: 0,
    lagIn: false,
    integral: 0.6,
    speed: 0,
    quietS: 0,
    boostS: 0,
  };
}

/** Draws where the contacts will close and open next: no switch acts twice at the same pressure. */
export function sampleSwitchPoints(plant: Plant, plan: SwitchPoints): void {
  const jitter = plan.jitterKpa ?? 1;
  plant.control.nextInKpa = plan.cutInKpa + jitter * plant.chance.normal();
  plant.control.nextOutKpa = plan.cutOutKpa + jitter * plant.chance.normal();
}

function setContacts(plant: Plant, closed: boolean): void {
  const { control } = plant;
  control.closed = closed;
  control.movedS = 0;
  control.bounces = plant.condition.chatter;
  plant.needsFineStep = true;
  if (!closed) return;
  control.activePump = (control.activePump + 1) % plant.units.length;
}

function pressureSwitch(plant: Plant, plan: SwitchPoints): void {
  const { control, condition } = plant;
  const felt = control.feltKpa;
  if (condition.lowCutOffReset) control.latched = false;
  if (!control.closed) {
    if (!control.latched && felt < control.nextInKpa + condition.cutInShiftKpa) setContacts(plant, true);
  } else if (felt > control.nextOutKpa + condition.cutOutShiftKpa) {
    if (condition.stuckContacts) return;
    setContacts(plant, false);
    sampleSwitchPoints(plant, plan);
  } else if (plan.lowCutOffKpa !== undefined && felt < plan.lowCutOffKpa && !condition.lowCutOffReset) {
    control.latched = true;
    setContacts(plant, false);
  }
}

function drive(plant: Plant, plan: Extract<ControlPlan, { is: 'variable-speed' }>, dtS: number): void {
  const { control } = plant;
  if (plant.condition.circuitDead) {
    control.speed = 0;
    control.closed = false;
    return;
  }
  if (!control.closed) {
    if (control.feltKpa >= plan.wakeKpa + plant.condition.cutInShiftKpa) return;
    setContacts(plant, true);
    control.integral = 0.7;
    control.speed = 0.3;
    control.quietS = 0;
    control.boostS = 0;
    return;
  }
  const boosting = control.boostS > 0;
  const set = plan.setKpa + plant.condition.cutOutShiftKpa + (boosting ? BOOST_KPA : 0);
  const error = set - control.feltKpa;
  const wanted = Math.min(1, Math.max(MIN_SPEED, GAIN * error + control.integral));
  if (wanted < 1 || error < 0)
    control.integral = Math.min(1, Math.max(0.3, control.integral + RESET * error * dtS));
  control.speed += Math.min(RAMP * dtS, Math.max(-RAMP * dtS, wanted - control.speed));
  const flow = plant.units.reduce((sum, unit) => sum + unit.upLPerS, 0);
  if (boosting) {
    control.boostS += dtS;
    if (error > 2 && control.boostS < BOOST_S) return;
    // Still drawn at more than a trickle: no time to sleep.
    if (error > 6) control.boostS = 0;
    else if (!plant.condition.stuckContacts) setContacts(plant, false);
    control.quietS = 0;
    return;
  }
  control.quietS = flow < plan.sleepBelowLPerS && error < 6 ? control.quietS + dtS : 0;
  if (control.quietS > QUIET_S) control.boostS = dtS;
}

/** Local hour of the plant as a fraction. */
export function localHour(plant: Plant): number {
  const h = (plant.tMs / HOUR_MS + plant.plan.utcOffsetH) % 24;
  return h < 0 ? h + 24 : h;
}

function float(plant: Plant, plan: Extract<ControlPlan, { is: 'float' }>): void {
  const depth = plant.storeL / 1000 / plan.areaM2;
  const { control, condition } = plant;
  if (!control.closed) {
    if (depth < plan.onM + control.nextInKpa) setContacts(plant, true);
  } else if (depth > plan.offM + control.nextOutKpa && !condition.stuckContacts) {
    setContacts(plant, false);
    // The float rides on ripples: some millimetres, kept where a switch keeps its jitter.
    control.nextInKpa = 0.004 * plant.chance.normal();
    control.nextOutKpa = 0.004 * plant.chance.normal();
  }
}

function timer(plant: Plant, plan: Extract<ControlPlan, { is: 'timer' }>): void {
  const hour = localHour(plant);
  const due = plan.onHours.some((on) => (hour - on + 24) % 24 < plan.forMin / 60);
  const full = plant.storeL > 0.98 * plan.storeL;
  const wanted = (due && !full) || (plant.control.closed && plant.condition.stuckContacts);
  if (wanted !== plant.control.closed && (!wanted || plant.storeL < 0.95 * plan.storeL))
    setContacts(plant, wanted);
}

/** One step of whatever controls the pump. */
export function stepControl(plant: Plant, dtS: number): void {
  const { control, condition, plan } = plant;
  control.movedS += dtS;
  const nipple = NIPPLE_S + condition.nippleBlockedS;
  const kpa = plant.frozenKpa ?? plant.teeKpa;
  control.feltKpa += ((kpa - control.feltKpa) * dtS) / (nipple + dtS);
  const by = plan.control;
  if (by.is === 'pressure-switch' || by.is === 'constant-pressure-valve') pressureSwitch(plant, by);
  else if (by.is === 'variable-speed') drive(plant, by, dtS);
  else if (by.is === 'float') float(plant, by);
  else timer(plant, by);
  if (!control.closed) control.lagIn = false;
  else if (plan.pumps.lagBelowKpa !== undefined && control.feltKpa < plan.pumps.lagBelowKpa)
    control.lagIn = true;
}

/** Whether current can flow through the contacts at this instant. */
export function contactsMake(control: ControlState): boolean {
  const phase = Math.floor(control.movedS / BOUNCE_S);
  return control.bounces > 0 && phase < 2 * control.bounces && phase % 2 === 1
    ? !control.closed
    : control.closed;
}

/** Whether pump number `at` is called. */
export function isPumpCalled(plant: Plant, at: number): boolean {
  if (!contactsMake(plant.control)) return false;
  const { how } = plant.plan.pumps;
  if (how === 'alternating') return at === plant.control.activePump;
  return at === 0 || (how === 'lag' && plant.control.lagIn);
}
