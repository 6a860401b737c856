/**
 * The simulated plant: a well with pump, motor, tank and controls by physics of its own, stepped
 * finely while something moves and coarsely at rest, read by sensors at whole intervals. `truthOf`
 * says what really happened. The same plan and seed give the same plant, whatever is wrong with it
 * later: habits, chance and noise are drawn apart.
 */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { newDemand } from '../model/demand.ts';
import { seeded } from '../model/random.ts';
import { isPumpCalled, sampleSwitchPoints, newControl, stepControl } from './controls.ts';
import { newHole } from './hole.ts';
import type { ControlPlan, PlantSample, TankPlan, TrueCycle, TrueDay, WellPlan } from './params.ts';
import { HEALTHY } from './params.ts';
import { startSurge, newSensorState, readSensors, noiselessAmps, noiselessKpa } from './sensors.ts';
import type { Plant, PumpUnit } from './state.ts';
import { updateSurroundings, UPDATE_MS } from './surroundings.ts';
import { newTank } from './tank.ts';
import { endDays, newTruth, recordKpa, recordRun } from './truth.ts';
import { updateCurrent, recordCharge, lineAmps, newUnit, switchUnit } from './unit.ts';
import { addAirAtStart, stepWater } from './water.ts';

const KELVIN = 273.15;
/** Steps, ms: while something starts or is about to, while a pump runs, at rest. */
const FINE_MS = 100;
const DRIVEN_MS = 200;
const RUNNING_MS = 500;
const WATER_DRAWN_MS = 1000;
const RESTING_MS = 5000;
const START_LASTS_S = 2.5;
/** Water may change the air by this share in a step. */
const AIR_STEP = 0.01;

/**
 * Middle of the pressures between which this control works, and a small tank where the plan has
 * none.
 */
function middleKpa(by: ControlPlan): number {
  if (by.is === 'float' || by.is === 'timer') return 0;
  return by.is === 'pressure-switch' ? (by.cutInKpa + by.cutOutKpa) / 2 : by.setKpa;
}

function tankOf(plan: WellPlan, kpa: number): TankPlan | undefined {
  const by = plan.control;
  if (by.is === 'float' || by.is === 'timer') return undefined;
  return plan.tank ?? { kind: 'captive-air', volumeL: 8, prechargeKpa: 0.7 * kpa };
}

/** Pressure of the standard atmosphere at a height, kPa (US Standard Atmosphere 1976). */
export function atmosphereKpa(altitudeM: number): number {
  return 101.325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}

/**
 * A plant as it stands at `fromMs`, a whole minute; at rest, its tank between the switch points,
 * its store three quarters full.
 */
export function newPlant(plan: WellPlan, fromMs: number): Plant {
  if (fromMs % MINUTE_MS !== 0) throw new Error(`Cannot start a plant: a whole minute is needed: ${fromMs}`);
  const chance = seeded(plan.seed * 3 + 1);
  const kpa = middleKpa(plan.control);
  const roomK = KELVIN + 15;
  const atmosphere = atmosphereKpa(plan.altitudeM);
  const tank = tankOf(plan, kpa);
  const store = 'storeL' in plan.control ? plan.control.storeL : 0;
  const offsetMs = plan.utcOffsetH * HOUR_MS;
  const dayMs = Math.floor((fromMs + offsetMs) / DAY_MS) * DAY_MS - offsetMs;
  const plant: Plant = {
    plan,
    atmosphereKpa: atmosphere,
    teeLossKpa: plan.teeLossKpa ?? 3 + 9 * chance.next(),
    ratedKpa: Math.max(100, kpa),
    inrushS: 0.1 + 0.15 * chance.next(),
    habits: seeded(plan.seed * 3),
    chance,
    noise: seeded(plan.seed * 3 + 2),
    tMs: fromMs,
    condition: HEALTHY,
    scheduledCondition: undefined,
    roomK,
    wellK: KELVIN + (plan.waterC ?? 11),
    tank: tank && newTank(tank, atmosphere, kpa, roomK),
    storeL: 0.75 * store,
    hole: newHole(0.3 + 0.4 * chance.next()),
    units: plan.pumps.pumps.map(newUnit),
    control: newControl(kpa),
    demand: newDemand(plan.fixtures),
    dayUseRatio: 1,
    dryS: 0,
    drawLPerS: 0,
    teeKpa: kpa,
    tankKpa: kpa,
    frozenKpa: undefined,
    netLPerS: 0,
    slopeKpaPerS: 0,
    needsFineStep: true,
    supplyDriftRatio: 1,
    voltRatio: 1,
    drawsNow: [],
    sensors: newSensorState(4 + 6 * chance.next(), 1 + 1.5 * chance.next()),
    truth: newTruth(plan.pumps.pumps.length, dayMs),
  };
  if (plan.control.is === 'pressure-switch' || plan.control.is === 'constant-pressure-valve')
    sampleSwitchPoints(plant, plan.control);
  return plant;
}

const isDrawing = (unit: PumpUnit): boolean => unit.state === 'runs' || unit.state === 'locked';

/**
 * How long the next step may be, ms: short where something starts, switches soon or would change
 * the air by much.
 */
function stepMs(plant: Plant): number {
  const { control, units, tank } = plant;
  if (plant.needsFineStep) {
    plant.needsFineStep = false;
    return FINE_MS;
  }
  let longest = plant.demand.open.length > 0 || plant.drawLPerS > 0 ? WATER_DRAWN_MS : RESTING_MS;
  if (control.movedS < START_LASTS_S) return FINE_MS;
  for (const unit of units) {
    if (unit.state === 'tripped') longest = Math.min(longest, 1000 * Math.max(0, unit.waitS - unit.inS));
    if (unit.inS < START_LASTS_S) return FINE_MS;
    if (!isDrawing(unit)) continue;
    longest = Math.min(longest, plant.plan.control.is === 'pressure-switch' ? RUNNING_MS : DRIVEN_MS);
  }
  if (!tank) return longest;
  if (tank.captive && tank.volumeL - tank.airL < 0.01 * tank.volumeL && plant.netLPerS < 0)
    longest = Math.min(longest, DRIVEN_MS);
  const airMs = (AIR_STEP * tank.airL * 1000) / (Math.abs(plant.netLPerS) + 1e-9);
  longest = Math.min(longest, airMs);
  const target = control.closed ? control.nextOutKpa : control.nextInKpa;
  const toGo = (target - control.feltKpa) / plant.slopeKpaPerS;
  if (toGo > 0) longest = Math.min(longest, toGo * 500);
  return Math.max(FINE_MS, Math.floor(longest / FINE_MS) * FINE_MS);
}

function switchPumps(plant: Plant, dtS: number): void {
  for (let at = 0; at < plant.units.length; at++) {
    const unit = plant.units[at]!;
    const called = isPumpCalled(plant, at);
    unit.requestedSpeed = plant.plan.control.is === 'variable-speed' ? plant.control.speed : 1;
    if (!switchUnit(unit, called, dtS)) continue;
    plant.needsFineStep = true;
    const size = 3 + 7 * plant.chance.next();
    if (unit.state === 'runs') {
      startSurge(plant.sensors, size);
      addAirAtStart(plant);
    } else if (unit.state === 'off') startSurge(plant.sensors, -size);
  }
}

function recordRuns(plant: Plant, dtMs: number, everyMs: number): void {
  for (let at = 0; at < plant.units.length; at++) {
    const unit = plant.units[at]!;
    const on = isDrawing(unit);
    if (!on && plant.truth.open[at] === undefined) continue;
    recordRun(plant.truth, at, {
      fromMs: plant.tMs,
      tMs: plant.tMs + dtMs,
      on,
      failedStart: unit.state === 'locked',
      shownAmps: on ? noiselessAmps(plant, lineAmps(unit, unit.amps)[0]!) : 0,
      liftedL: (unit.upLPerS * dtMs) / 1000,
      everyMs,
    });
  }
}

/** One step of `longestMs`, cut short where something switches at its beginning. */
function step(plant: Plant, longestMs: number, everyMs: number): void {
  stepControl(plant, longestMs / 1000);
  switchPumps(plant, longestMs / 1000);
  const dtMs = plant.needsFineStep ? Math.min(FINE_MS, longestMs) : longestMs;
  const dtS = dtMs / 1000;
  stepWater(plant, dtS);
  const driven = plant.plan.control.is === 'variable-speed';
  const { inrushS, voltRatio } = plant;
  const { sucksAir } = plant.hole;
  for (const unit of plant.units) {
    updateCurrent(unit, { sucksAir, voltRatio, inrushS, driven, dtS });
    recordCharge(unit, plant.tMs + dtMs, dtS);
  }
  plant.sensors.surgeAgeS += dtS;
  recordRuns(plant, dtMs, everyMs);
  plant.tMs += dtMs;
}

function takeSample(plant: Plant, everyS: number, onSample: (sample: PlantSample) => void): void {
  recordKpa(plant.truth, plant.tMs, noiselessKpa(plant));
  onSample(readSensors(plant, everyS));
}

/**
 * A long step at rest, with the readings that fall within it on the straight line between its ends.
 */
function stepAtRest(
  plant: Plant,
  longestMs: number,
  everyMs: number,
  onSample: (sample: PlantSample) => void,
): void {
  const fromMs = plant.tMs;
  const fromKpa = plant.teeKpa;
  step(plant, longestMs, everyMs);
  const { tMs, teeKpa } = plant;
  for (let atMs = fromMs + everyMs; atMs < tMs; atMs += everyMs) {
    plant.tMs = atMs;
    plant.teeKpa = fromKpa + ((teeKpa - fromKpa) * (atMs - fromMs)) / (tMs - fromMs);
    takeSample(plant, everyMs / 1000, onSample);
  }
  plant.tMs = tMs;
  plant.teeKpa = teeKpa;
}

/**
 * Plays on until `untilMs` (left out) and hands a sample each `everyS` (a multiple of 0.1), at
 * whole multiples of it.
 */
export function playPlant(
  plant: Plant,
  untilMs: number,
  everyS: number,
  onSample: (sample: PlantSample) => void,
): void {
  const everyMs = Math.round(everyS * 1000);
  while (plant.tMs < untilMs) {
    if (plant.tMs % UPDATE_MS === 0) updateSurroundings(plant);
    const past = plant.tMs % everyMs;
    if (past === 0) takeSample(plant, everyS, onSample);
    const longest = Math.min(stepMs(plant), UPDATE_MS - (plant.tMs % UPDATE_MS), untilMs - plant.tMs);
    // Only rest has steps as long as these.
    if (past === 0 && longest > WATER_DRAWN_MS && longest > everyMs)
      stepAtRest(plant, longest, everyMs, onSample);
    else step(plant, Math.min(longest, everyMs - past), everyMs);
  }
}

/**
 * Cycles and whole local days so far; what is still open is left out. Water of a first part-day
 * counts into its day.
 */
export function truthOf(plant: Plant): { cycles: TrueCycle[]; days: TrueDay[] } {
  endDays(plant.truth, plant.tMs);
  return { cycles: plant.truth.cycles, days: plant.truth.days };
}
