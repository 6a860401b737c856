/**
 * A small well to check the hydraulics against, made apart from them: the air in the tank is
 * followed by its energy in 0.1 s steps (ideal gas, heat lost to the room through the wall), the
 * pump by a square-root curve, the house by random draws. It knows its litres exactly. Nothing of
 * src/ is used here.
 */

export interface ModelOptions {
  days: number;
  seed: number;
  everyS: number;
  noiseKpa: number;
  volumeL: number;
  prechargeKpa: number;
  cutInKpa: number;
  cutOutKpa: number;
  /** Delivery at 0 gauge, L/s, and pressure at which the pump lifts no more, kPa gauge. */
  openLPerS: number;
  shutOffKpa: number;
  /** Time constant of the air's cooling at rest, s; 0: always at room temperature. */
  coolingS: number;
  /** Draws a day, and a steady loss, L/h. */
  drawsPerDay: number;
  leakLPerH: number;
  /**
   * Change of the pump's delivery and of the air charge over the days, as shares at a time in days.
   */
  pumpShare?: (day: number) => number;
  airShare?: (day: number) => number;
}

export const COMMON: ModelOptions = {
  days: 6,
  seed: 1,
  everyS: 1,
  noiseKpa: 1.2,
  volumeL: 235,
  prechargeKpa: 262,
  cutInKpa: 276,
  cutOutKpa: 414,
  openLPerS: 0.95,
  shutOffKpa: 800,
  coolingS: 35,
  drawsPerDay: 45,
  leakLPerH: 0,
};

export interface ModelRun {
  startedMs: number;
  stoppedMs: number;
  deliveredL: number;
}

export interface Model {
  timeMs: number[];
  kpa: number[];
  runs: ModelRun[];
  /** Water drawn in each whole day, leak included. */
  usedL: number[];
}

const ATMOSPHERE_KPA = 101.325;
const GAMMA = 1.4;
/** The precharge was read on air of 20 C; the room at the tank, with its cold water, has 11 C. */
const COOLED = (273.15 + 11) / (273.15 + 20);
const STEP_S = 0.1;
const PIPES_L_PER_KPA = 0.01;
export const MODEL_BEGINS_MS = Date.UTC(2026, 2, 2);

/** A seeded row of numbers in [0, 1) (mulberry32). */
export function row(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

interface Draw {
  untilS: number;
  lPerS: number;
}

/**
 * Draws as a house makes them: few at night, mostly a minute or less, now and then a shower or a
 * machine.
 */
function nextDraw(random: () => number, atS: number, perDay: number): Draw | undefined {
  const hour = (atS / 3600) % 24;
  const busy = hour < 6 || hour > 23 ? 0.05 : 1.3;
  if (random() > (perDay * busy * STEP_S) / 86_400) return undefined;
  const long = random() < 0.25;
  const lasts = long ? 180 + random() * 400 : 5 + random() * 70;
  return { untilS: atS + lasts, lPerS: 0.03 + random() * (long ? 0.15 : 0.2) };
}

export function simulate(options: Partial<ModelOptions> = {}): Model {
  const o = { ...COMMON, ...options };
  const random = row(o.seed);
  const noise = row(o.seed + 1000);
  const model: Model = { timeMs: [], kpa: [], runs: [], usedL: [] };
  // Air charge: pressure x volume at room temperature. `warm`: its temperature over the room's.
  const fullCharge = o.volumeL * (o.prechargeKpa + ATMOSPHERE_KPA) * COOLED;
  let charge = fullCharge;
  let warm = 1;
  let air = fullCharge / (o.cutOutKpa - 20 + ATMOSPHERE_KPA);
  // With the tank empty only the pipes give: a hundredth of a litre a kPa.
  let pipesKpa: number | undefined;
  let running: ModelRun | undefined;
  let runningSeen = false;
  let draws: Draw[] = [];
  let used = 0;
  const steps = Math.round((o.days * 86_400) / STEP_S);
  const every = Math.round(o.everyS / STEP_S);
  for (let i = 0; i < steps; i++) {
    const atS = i * STEP_S;
    const atMs = MODEL_BEGINS_MS + Math.round(atS * 1000);
    const day = atS / 86_400;
    charge = fullCharge * (o.airShare?.(day) ?? 1);
    const tankKpa = (charge * warm) / air - ATMOSPHERE_KPA;
    const gauge = pipesKpa ?? tankKpa;
    if (!running && gauge <= o.cutInKpa) running = { startedMs: 0, stoppedMs: 0, deliveredL: 0 };
    else if (running && gauge >= o.cutOutKpa) running = undefined;
    const lift = running ? pumpLPerS(o, gauge, day) : 0;
    draws = draws.filter((d) => d.untilS > atS);
    const drawn = nextDraw(random, atS, o.drawsPerDay);
    if (drawn) draws.push(drawn);
    const wanted =
      draws.reduce((sum, d) => sum + d.lPerS, 0) * Math.sqrt(Math.max(0, gauge) / 340) + o.leakLPerH / 3600;
    if (running) running.deliveredL += lift * STEP_S;
    used += wanted * STEP_S;
    if (pipesKpa !== undefined) {
      pipesKpa = Math.max(0, pipesKpa + ((lift - wanted) * STEP_S) / PIPES_L_PER_KPA);
      if (pipesKpa > tankKpa) pipesKpa = undefined;
    } else {
      const before = air;
      air = Math.max(1, air - (lift - wanted) * STEP_S);
      warm *= (before / air) ** (GAMMA - 1);
      if (air > o.volumeL) {
        air = o.volumeL;
        pipesKpa = tankKpa;
      }
    }
    if (o.coolingS > 0) warm -= ((warm - 1) * STEP_S) / o.coolingS;
    else warm = 1;
    if (i % every === 0) {
      model.timeMs.push(atMs);
      model.kpa.push(Math.round((gauge + o.noiseKpa * normal(noise)) * 10) / 10);
      if (running && !runningSeen) {
        running.startedMs = atMs;
        model.runs.push(running);
      }
      if (!running && runningSeen) model.runs.at(-1)!.stoppedMs = atMs;
      runningSeen = running !== undefined;
    }
    if ((i + 1) % Math.round(86_400 / STEP_S) === 0) {
      model.usedL.push(used);
      used = 0;
    }
  }
  return { ...model, runs: model.runs.filter((r) => r.stoppedMs > 0) };
}

function pumpLPerS(o: ModelOptions, gauge: number, day: number): number {
  const share = o.pumpShare?.(day) ?? 1;
  return share * o.openLPerS * Math.sqrt(Math.max(0, 1 - gauge / o.shutOffKpa));
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
