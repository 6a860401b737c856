/**
 * What clamp, transducer and the other sensors show of the plant: their scale, steps, noise (white, and a part that wanders within a
 * minute), their limits, their faults, and the blow in the pipes when the pump starts and stops.
 */
import { seeded } from '../model/random.ts';
import type { PlantSample } from './params.ts';
import { liftM } from './hole.ts';
import type { Plant, PumpUnit, SenseState } from './state.ts';
import { lineAmps, meanAmps } from './unit.ts';

/** The wandering part of the noise forgets in this time, s, and has this share of the white part's deviation. */
const WANDERS_S = 30;
const WANDER_SHARE = 0.6;
const BLOW_LASTS_S = 5;
/** A clamp's reading stands for the second before it. */
const CLAMP_OVER_S = 1;
const KELVIN = 273.15;

export function newSense(swing: number, dies: number): SenseState {
  return {
    kpaDrift: 0,
    ampsDrift: 0,
    at: 0,
    everyS: 0,
    keeps: 0,
    fresh: 0,
    stuckKpa: undefined,
    blowKpa: 0,
    blowS: 1e3,
    swing,
    dies,
  };
}

/** Normal deviates at hand: a reading a second for years wants many, and noise of a sensor needs no tail beyond four deviations. */
const NORMALS = 1 << 15;
/** One reading takes less than these, one after the other from a place drawn by lot. */
const ROOM = 64;
const normals = ((): Float64Array => {
  const random = seeded(77);
  return Float64Array.from({ length: NORMALS + ROOM }, () => random.normal());
})();

function normal(plant: Plant): number {
  return normals[plant.sense.at++]!;
}

/** A blow of so many kPa runs through the pipes from now on. */
export function blow(sense: SenseState, kpa: number): void {
  sense.blowKpa = kpa;
  sense.blowS = 0;
}

const rounded = (value: number, step: number): number => {
  if (step <= 0) return value;
  const per = 1 / step;
  return per >= 1 ? Math.round(value * per) / per : Math.round(value / step) * step;
};

/** Current as the clamp shows it without noise, A. */
export function shownAmps(plant: Plant, lineA: number): number {
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

/** Pressure as the transducer shows it without noise, kPa; undefined where it is out of its span. */
export function shownKpa(plant: Plant): number | undefined {
  if (kpaFault(plant) !== 0) return undefined;
  const { condition, plan, sense } = plant;
  const offset = plan.transducer.offsetKpa + condition.transducerOffsetKpa;
  const kpa = (plant.frozenKpa ?? plant.teeKpa) + offset;
  if (!condition.transducerStuck) {
    sense.stuckKpa = undefined;
    return kpa;
  }
  sense.stuckKpa ??= kpa;
  return sense.stuckKpa;
}

function showLine(plant: Plant, lineA: number): number {
  const { clamp } = plant.plan;
  const { sense } = plant;
  const true_ = shownAmps(plant, lineA);
  // A part of the noise grows with what is measured.
  const size = clamp.noiseA + 0.001 * true_;
  const value = true_ + size * (normal(plant) + sense.ampsDrift);
  return Math.min(clamp.maxA, Math.max(0, rounded(value, clamp.stepA)));
}

function blowNow(sense: SenseState): number {
  if (sense.blowS > BLOW_LASTS_S) return 0;
  return sense.blowKpa * Math.exp(-sense.dies * sense.blowS) * Math.cos(sense.swing * sense.blowS);
}

function showKpa(plant: Plant, running: boolean): number | undefined {
  const { transducer } = plant.plan;
  const shown = shownKpa(plant);
  if (shown === undefined) return undefined;
  if (plant.condition.transducerStuck) return rounded(shown, transducer.stepKpa);
  const moved = plant.frozenKpa === undefined ? blowNow(plant.sense) : 0;
  const size = transducer.noiseKpa * (running ? 1.3 : 1);
  return rounded(shown + moved + size * (normal(plant) * 0.8 + plant.sense.kpaDrift), transducer.stepKpa);
}

function wander(plant: Plant, everyS: number): void {
  const { sense } = plant;
  if (sense.everyS !== everyS) {
    sense.everyS = everyS;
    sense.keeps = Math.exp(-everyS / WANDERS_S);
    sense.fresh = WANDER_SHARE * Math.sqrt(1 - sense.keeps * sense.keeps);
  }
  sense.kpaDrift = sense.keeps * sense.kpaDrift + sense.fresh * normal(plant);
  sense.ampsDrift = sense.keeps * sense.ampsDrift + 0.5 * sense.fresh * normal(plant);
}

/** Volts at the pump circuit: none while it is dead; the pump's own draw pulls them down a little. */
function showVolts(plant: Plant, unit: PumpUnit): number[] {
  const volts = plant.condition.circuitDead
    ? 0
    : unit.plan.volts * plant.voltShare * (1 - 0.006 * (unit.amps / unit.plan.fullFlowAmps));
  const one = (): number => Math.round((volts + (volts > 0 ? 0.2 * normal(plant) : 0)) * 10) / 10;
  if (unit.plan.phase === 1) return [one()];
  return [1, 2, 3].map((leg) => (leg === plant.condition.deadLeg ? 0 : one()));
}

function showAmps(plant: Plant, unit: PumpUnit): number[] {
  // The records of a start, ten a second, are of single cycles.
  const { everyS } = plant.sense;
  const amps = everyS < 0.5 ? unit.amps : meanAmps(unit, plant.tMs, Math.min(CLAMP_OVER_S, everyS));
  if (unit.plan.phase === 1) return [showLine(plant, amps)];
  return lineAmps(unit, amps).map((a) => showLine(plant, a));
}

/** One reading of everything. */
export function sense(plant: Plant, everyS: number): PlantSample {
  const { plan, units } = plant;
  plant.sense.at = (plant.noise.next() * NORMALS) | 0;
  wander(plant, everyS);
  let running = false;
  for (const unit of units) running ||= unit.state === 'runs';
  const above = plan.hole.intakeM - liftM(plan.hole, plant.hole, plant.condition);
  const sample: PlantSample = {
    tMs: plant.tMs,
    amps: units.length === 1 ? [showAmps(plant, units[0]!)] : units.map((unit) => showAmps(plant, unit)),
    volts: showVolts(plant, units[0]!),
    calls: plant.control.closed,
    levelM: Math.round(Math.max(0, above) * 100) / 100,
    temperatureC: Math.round((plant.roomK - KELVIN) * 10) / 10,
  };
  const kpa = showKpa(plant, running);
  const fault = kpaFault(plant);
  if (kpa !== undefined) sample.kpa = kpa;
  if (fault !== 0) sample.kpaFault = fault;
  const by = plan.control;
  if (by.is === 'float' || by.is === 'timer')
    sample.storeM = Math.round(plant.storeL / by.areaM2 + normal(plant)) / 1000;
  return sample;
}
