/**
 * What clamp, transducer and the other sensors show of the plant: their scale, steps, noise (white, and a part that wanders within a
 * minute), their limits, their faults, and the blow in the pipes when the pump starts and stops.
 */
import type { PlantSample } from './params.ts';
import { liftM } from './hole.ts';
import type { Plant, PumpUnit, SenseState } from './state.ts';
import { lineAmps } from './unit.ts';

/** The wandering part of the noise forgets in this time, s, and has this share of the white part's deviation. */
const WANDERS_S = 30;
const WANDER_SHARE = 0.6;
const BLOW_LASTS_S = 5;
const KELVIN = 273.15;

export function newSense(swing: number, dies: number): SenseState {
  return { kpaDrift: 0, ampsDrift: 0, stuckKpa: undefined, blowKpa: 0, blowS: 1e3, swing, dies };
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

/** Pressure as the transducer shows it without noise, kPa, or how it is out of its span. */
export function shownKpa(plant: Plant): { kpa?: number; fault?: 1 | 2 | 3 } {
  const { condition, plan, sense } = plant;
  if (condition.transducerOut !== 0) return { fault: condition.transducerOut };
  if (!condition.transducerStuck) sense.stuckKpa = undefined;
  const true_ = plant.frozenKpa ?? plant.teeKpa;
  const kpa = sense.stuckKpa ?? true_ + plan.transducer.offsetKpa + condition.transducerOffsetKpa;
  if (condition.transducerStuck) sense.stuckKpa = kpa;
  if (plan.transducer.maxKpa !== undefined && kpa > plan.transducer.maxKpa * 1.06) return { fault: 2 };
  return { kpa };
}

function showLine(plant: Plant, lineA: number): number {
  const { clamp } = plant.plan;
  const { noise, sense } = plant;
  const true_ = shownAmps(plant, lineA);
  // A part of the noise grows with what is measured.
  const size = clamp.noiseA + 0.001 * true_;
  const value = true_ + size * (noise.normal() + sense.ampsDrift);
  return Math.min(clamp.maxA, Math.max(0, rounded(value, clamp.stepA)));
}

function blowNow(sense: SenseState): number {
  if (sense.blowS > BLOW_LASTS_S) return 0;
  return sense.blowKpa * Math.exp(-sense.dies * sense.blowS) * Math.cos(sense.swing * sense.blowS);
}

function showKpa(plant: Plant, running: boolean): { kpa?: number; kpaFault?: 1 | 2 | 3 } {
  const { transducer } = plant.plan;
  const shown = shownKpa(plant);
  if (shown.kpa === undefined) return shown.fault === undefined ? {} : { kpaFault: shown.fault };
  if (plant.condition.transducerStuck) return { kpa: rounded(shown.kpa, transducer.stepKpa) };
  const moved = plant.frozenKpa === undefined ? blowNow(plant.sense) : 0;
  const size = transducer.noiseKpa * (running ? 1.3 : 1);
  const value = shown.kpa + moved + size * (plant.noise.normal() * 0.8 + plant.sense.kpaDrift);
  return { kpa: rounded(value, transducer.stepKpa) };
}

function wander(plant: Plant, everyS: number): void {
  const keeps = Math.exp(-everyS / WANDERS_S);
  const fresh = WANDER_SHARE * Math.sqrt(1 - keeps * keeps);
  plant.sense.kpaDrift = keeps * plant.sense.kpaDrift + fresh * plant.noise.normal();
  plant.sense.ampsDrift = keeps * plant.sense.ampsDrift + 0.5 * fresh * plant.noise.normal();
}

/** Volts at the pump circuit: none while it is dead; the pump's own draw pulls them down a little. */
function showVolts(plant: Plant, unit: PumpUnit): number[] {
  const volts = plant.condition.circuitDead
    ? 0
    : unit.plan.volts * plant.voltShare * (1 - 0.006 * (unit.amps / unit.plan.fullFlowAmps));
  const one = (): number => Math.round((volts + (volts > 0 ? 0.2 * plant.noise.normal() : 0)) * 10) / 10;
  if (unit.plan.phase === 1) return [one()];
  return [1, 2, 3].map((leg) => (leg === plant.condition.deadLeg ? 0 : one()));
}

/** One reading of everything. */
export function sense(plant: Plant, everyS: number): PlantSample {
  const { plan, units } = plant;
  wander(plant, everyS);
  const running = units.some((unit) => unit.state === 'runs');
  const by = plan.control;
  return {
    tMs: plant.tMs,
    amps: units.map((unit) => lineAmps(unit).map((a) => showLine(plant, a))),
    ...showKpa(plant, running),
    volts: showVolts(plant, units[0]!),
    ...((by.is === 'float' || by.is === 'timer') && {
      storeM: Math.round(plant.storeL / by.areaM2 + plant.noise.normal()) / 1000,
    }),
    levelM:
      Math.round(Math.max(0, plan.hole.intakeM - liftM(plan.hole, plant.hole, plant.condition)) * 100) / 100,
    temperatureC: Math.round((plant.roomK - KELVIN + 0.03 * plant.noise.normal()) * 10) / 10,
  };
}
