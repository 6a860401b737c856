/**
 * What clamp, transducer and the other sensors show of the plant: their scale, steps, noise (white,
 * and a part that wanders within a minute), their limits, their faults, and the blow in the pipes
 * when the pump starts and stops.
 */
import { seeded } from '../model/random.ts';
import type { PlantSample } from './params.ts';
import { liftM } from './hole.ts';
import type { Plant, PumpUnit, SensorState } from './state.ts';
import { lineAmps, meanAmps } from './unit.ts';

/**
 * The wandering part of the noise forgets in this time, s, and has this share of the white part's
 * deviation.
 */
const DRIFT_TIME_S = 30;
const DRIFT_RATIO = 0.6;
const SURGE_LASTS_S = 5;
/** A clamp's reading stands for the second before it. */
const CLAMP_OVER_S = 1;
const KELVIN = 273.15;

export function newSensorState(surgeRadPerS: number, surgeDecayPerS: number): SensorState {
  return {
    kpaDrift: 0,
    ampsDrift: 0,
    at: 0,
    everyS: 0,
    driftRetention: 0,
    driftNoise: 0,
    stuckKpa: undefined,
    surgeKpa: 0,
    surgeAgeS: 1e3,
    surgeRadPerS,
    surgeDecayPerS,
  };
}

/**
 * Normal deviates at hand: a reading a second for years wants many, and noise of a sensor needs no
 * tail beyond four deviations.
 */
const NORMALS = 1 << 15;
/** One reading takes less than these, one after the other from a place drawn by lot. */
const MAX_DRAWS = 64;
const normals = ((): Float64Array => {
  const random = seeded(77);
  return Float64Array.from({ length: NORMALS + MAX_DRAWS }, () => random.normal());
})();

function normal(plant: Plant): number {
  return normals[plant.sensors.at++]!;
}

/** A blow of so many kPa runs through the pipes from now on. */
export function startSurge(sense: SensorState, kpa: number): void {
  sense.surgeKpa = kpa;
  sense.surgeAgeS = 0;
}

const rounded = (value: number, step: number): number => {
  if (step <= 0) return value;
  const per = 1 / step;
  return per >= 1 ? Math.round(value * per) / per : Math.round(value / step) * step;
};

/** Current as the clamp shows it without noise, A. */
export function noiselessAmps(plant: Plant, lineA: number): number {
  const { clamp } = plant.plan;
  const { clampGain, clampOff, otherAmps } = plant.condition;
  if (clampOff) return 0;
  return Math.min(clamp.maxA, (lineA + otherAmps) * clamp.gain * clampGain);
}

/** How the transducer is out of its span: 1 low, 2 high, 3 bad; 0 if it is not. */
function kpaFault(plant: Plant): 0 | 1 | 2 | 3 {
  const { maxKpa } = plant.plan.transducer;
  if (plant.condition.transducerOut !== 0 || maxKpa === undefined) return plant.condition.transducerOut;
  // A loop shows up to about 106 % of its span (NAMUR NE 43: 20.5 to 21 mA).
  return (plant.frozenKpa ?? plant.teeKpa) > 1.06 * maxKpa ? 2 : 0;
}

/**
 * Pressure as the transducer shows it without noise, kPa; undefined where it is out of its span.
 */
export function noiselessKpa(plant: Plant): number | undefined {
  if (kpaFault(plant) !== 0) return undefined;
  const { condition, plan, sensors } = plant;
  const offset = plan.transducer.offsetKpa + condition.transducerOffsetKpa;
  const kpa = (plant.frozenKpa ?? plant.teeKpa) + offset;
  if (!condition.transducerStuck) {
    sensors.stuckKpa = undefined;
    return kpa;
  }
  sensors.stuckKpa ??= kpa;
  return sensors.stuckKpa;
}

function readLine(plant: Plant, lineA: number): number {
  const { clamp } = plant.plan;
  const { sensors } = plant;
  const true_ = noiselessAmps(plant, lineA);
  // A part of the noise grows with what is measured.
  const size = clamp.noiseA + 0.001 * true_;
  const value = true_ + size * (normal(plant) + sensors.ampsDrift);
  return Math.min(clamp.maxA, Math.max(0, rounded(value, clamp.stepA)));
}

function surgeNowKpa(sense: SensorState): number {
  if (sense.surgeAgeS > SURGE_LASTS_S) return 0;
  return (
    sense.surgeKpa *
    Math.exp(-sense.surgeDecayPerS * sense.surgeAgeS) *
    Math.cos(sense.surgeRadPerS * sense.surgeAgeS)
  );
}

function readKpa(plant: Plant, running: boolean): number | undefined {
  const { transducer } = plant.plan;
  const shown = noiselessKpa(plant);
  if (shown === undefined) return undefined;
  if (plant.condition.transducerStuck) return rounded(shown, transducer.stepKpa);
  const moved = plant.frozenKpa === undefined ? surgeNowKpa(plant.sensors) : 0;
  const size = transducer.noiseKpa * (running ? 1.3 : 1);
  return rounded(shown + moved + size * (normal(plant) * 0.8 + plant.sensors.kpaDrift), transducer.stepKpa);
}

function stepDrift(plant: Plant, everyS: number): void {
  const { sensors } = plant;
  if (sensors.everyS !== everyS) {
    sensors.everyS = everyS;
    sensors.driftRetention = Math.exp(-everyS / DRIFT_TIME_S);
    sensors.driftNoise = DRIFT_RATIO * Math.sqrt(1 - sensors.driftRetention * sensors.driftRetention);
  }
  sensors.kpaDrift = sensors.driftRetention * sensors.kpaDrift + sensors.driftNoise * normal(plant);
  sensors.ampsDrift = sensors.driftRetention * sensors.ampsDrift + 0.5 * sensors.driftNoise * normal(plant);
}

/**
 * Volts at the pump circuit: none while it is dead; the pump's own draw pulls them down a little.
 */
function readVolts(plant: Plant, unit: PumpUnit): number[] {
  const volts = plant.condition.circuitDead
    ? 0
    : unit.plan.volts * plant.voltRatio * (1 - 0.006 * (unit.amps / unit.plan.fullFlowAmps));
  const one = (): number => Math.round((volts + (volts > 0 ? 0.2 * normal(plant) : 0)) * 10) / 10;
  if (unit.plan.phase === 1) return [one()];
  return [1, 2, 3].map((leg) => (leg === plant.condition.deadLeg ? 0 : one()));
}

function readAmps(plant: Plant, unit: PumpUnit): number[] {
  // The records of a start, ten a second, are of single cycles.
  const { everyS } = plant.sensors;
  const amps = everyS < 0.5 ? unit.amps : meanAmps(unit, plant.tMs, Math.min(CLAMP_OVER_S, everyS));
  if (unit.plan.phase === 1) return [readLine(plant, amps)];
  return lineAmps(unit, amps).map((a) => readLine(plant, a));
}

/** One reading of everything. */
export function readSensors(plant: Plant, everyS: number): PlantSample {
  const { plan, units } = plant;
  plant.sensors.at = (plant.noise.next() * NORMALS) | 0;
  stepDrift(plant, everyS);
  let running = false;
  for (const unit of units) running ||= unit.state === 'runs';
  const above = plan.hole.intakeM - liftM(plan.hole, plant.hole, plant.condition);
  const sample: PlantSample = {
    tMs: plant.tMs,
    amps: units.length === 1 ? [readAmps(plant, units[0]!)] : units.map((unit) => readAmps(plant, unit)),
    volts: readVolts(plant, units[0]!),
    calls: plant.control.closed,
    levelM: Math.round(Math.max(0, above) * 100) / 100,
    temperatureC: Math.round((plant.roomK - KELVIN) * 10) / 10,
  };
  const kpa = readKpa(plant, running);
  const fault = kpaFault(plant);
  if (kpa !== undefined) sample.kpa = kpa;
  if (fault !== 0) sample.kpaFault = fault;
  const by = plan.control;
  if (by.is === 'float' || by.is === 'timer')
    sample.storeM = Math.round(plant.storeL / by.areaM2 + normal(plant)) / 1000;
  return sample;
}
