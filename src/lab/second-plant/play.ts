/**
 * The second plant as a whole: water goes from the ground through pump, drop pipe and tee into the
 * tank or store and out to whoever draws. Fine steps where something moves quickly, whole seconds
 * where water is drawn, and longer ones where the well rests.
 */
import { seeded } from '../model/random.ts';
import type { PlantSample, TrueCycle, TrueDay } from '../plant/params.ts';
import { levelM, newAquifer, stepAquifer } from './aquifer.ts';
import { drawPoints, isCalled, newSwitches, stepControl } from './control.ts';
import { advanceDemand, newDemand, nextDemandMs } from './demand.ts';
import { integrateAmps, readInstruments, shownAmps, shownKpa, TEE_M } from './instruments.ts';
import { headOfKpa, kpaOfHead } from './pipe.ts';
import { HEALTHY, type SecondPlan } from './plan.ts';
import { newRecorder, recordAmps, recordChange, recordWater } from './record.ts';
import { strike } from './ring.ts';
import type { Second } from './state.ts';
import { stepSupply, supplyRatio } from './supply.ts';
import { gaugeKpa, givesLPerKpa, newTank, setAir, stepTank } from './tank.ts';
import { newUnit, stepUnit } from './unit.ts';
import { localTime, outdoorC } from './weather.ts';

const FINE_MS = 200;
const REST_MS = 1000;
/** Weather, supply and the state of the parts are looked at this often. */
const SURROUNDINGS_MS = 5000;
/** Of the line between tee and tank, kPa for each (L/s)^2 (common practice, no source). */
const TANK_LINE_KPA = 8;
/** Flows that are given at a pressure, are given at this one. */
const GIVEN_AT_KPA = 300;
/**
 * Hot water: its part of what is drawn, and how it swells from 10 to 60 C (steam tables; memory).
 */
const HOT_RATIO = 0.35;
const SWELLS_BY = 0.017;
const SWELLS_S = 900;
const RELIEF_L_PER_S_PER_KPA = 0.008;
const STORE_LINE_KPA = 25;

function newSecond(plan: SecondPlan, fromMs: number): Second {
  const startKpa = startPressure(plan);
  const atmosphereKpa = 101.325 * (1 - 2.25577e-5 * plan.altitudeM) ** 5.25588;
  const { pumps } = plan.pumps;
  const second: Second = {
    plan,
    random: seeded(plan.seed),
    noise: seeded(plan.seed ^ 0x5bd1e995),
    tMs: fromMs,
    condition: HEALTHY,
    supply: { wander: 0 },
    supplyRatio: plan.supply.ratio,
    outdoorC: plan.climate.meanC,
    houseC: plan.climate.meanC,
    aquifer: newAquifer(),
    levelM: plan.aquifer.staticLevelM,
    ...(plan.tank && { tank: newTank(plan.tank, atmosphereKpa, startKpa) }),
    storeM: startStoreM(plan),
    units: pumps.map(newUnit),
    switches: newSwitches(plan, startKpa),
    turn: 0,
    driveSpeed: 0.5,
    driveSum: 0.5,
    demand: newDemand(),
    ring: { kpa: 0, sinceMs: fromMs },
    kpa: startKpa,
    inLPerS: 0,
    drawnLPerS: 0,
    swellL: 0,
    movingLPerS: 0,
    recorder: newRecorder(pumps.length, fromMs, plan.utcOffsetH),
    sample: {
      tMs: fromMs,
      kpa: startKpa,
      levelM: 0,
      calls: false,
      amps: pumps.map(({ phase }) => Array.from({ length: phase }, () => 0)),
      volts: Array.from({ length: pumps[0]!.phase }, () => 0),
      temperatureC: 0,
    },
  };
  for (let at = 0; at < second.switches.length; at++) drawPoints(second, at);
  return second;
}

function startPressure({ control }: SecondPlan): number {
  switch (control.is) {
    case 'pressure-switch':
    case 'constant-pressure-valve':
      return (control.cutInKpa + control.cutOutKpa) / 2;
    case 'variable-speed':
      return control.setKpa;
    case 'float':
    case 'timer':
      return kpaOfHead(control.store.inletM);
    default:
      return control satisfies never;
  }
}

function startStoreM({ control }: SecondPlan): number {
  if (control.is === 'float') return (control.onM + control.offM) / 2;
  return control.is === 'timer' ? control.store.overflowM / 2 : 0;
}

export function playSecond(
  plan: SecondPlan,
  { fromMs, untilMs, everyS }: { fromMs: number; untilMs: number; everyS: number },
  onSample: (sample: PlantSample) => void,
): { cycles: TrueCycle[]; days: TrueDay[]; shownMs?: number } {
  const second = newSecond(plan, fromMs);
  const everyMs = Math.round(1000 * everyS);
  while (second.tMs < untilMs) {
    if (second.tMs % SURROUNDINGS_MS === 0) updateSurroundings(second);
    if (second.tMs % everyMs === 0) {
      onSample(readInstruments(second));
      recordAmps(second, (pump) => shownAmps(second, second.units[pump]!.meanA[0]!));
    }
    step(second, stepMs(second, everyMs));
  }
  const { cycles, days, shownMs } = second.recorder;
  return { cycles, days, ...(shownMs !== undefined && { shownMs }) };
}

function stepMs(second: Second, everyMs: number): number {
  const { tMs, units, plan, ring, demand, movingLPerS } = second;
  const isFine = everyMs < REST_MS || plan.meanS < 1 || tMs % REST_MS !== 0 || ring.kpa !== 0;
  if (isFine || nextDemandMs(demand) < tMs + REST_MS) return FINE_MS;
  if (units.some(({ on }) => on)) return FINE_MS;
  const isQuiet = movingLPerS === 0 && !('setKpa' in plan.control);
  if (!isQuiet || nextDemandMs(demand) < tMs + SURROUNDINGS_MS) return REST_MS;
  return Math.min(SURROUNDINGS_MS - (tMs % SURROUNDINGS_MS), everyMs - (tMs % everyMs));
}

function updateSurroundings(second: Second): void {
  const { plan, tMs, supply, random } = second;
  const dtS = SURROUNDINGS_MS / 1000;
  const { hour } = localTime(tMs, plan.utcOffsetH);
  second.condition = plan.fault ? { ...HEALTHY, ...plan.fault(tMs) } : HEALTHY;
  const { condition, tank } = second;
  if (tank && plan.fault) setAir(tank, condition.airRatio);
  stepSupply(plan.supply, supply, random, dtS);
  second.supplyRatio = supplyRatio(plan.supply, supply, hour);
  advanceDemand(second.demand, plan, tMs);
  second.outdoorC = outdoorC(plan.climate, second.demand.meanC, hour) - condition.coldC;
  const heatedC = condition.heaterOn ? plan.climate.heatedToC : -99;
  // Walls of a pump house follow the air within some hours (common practice, no source).
  second.houseC += (second.outdoorC - second.houseC) * (dtS / 14_400);
  second.houseC = Math.max(second.houseC, heatedC);
}

function step(second: Second, dtMs: number): void {
  const { units, plan, condition } = second;
  const dtS = dtMs / 1000;
  advanceDemand(second.demand, plan, second.tMs);
  stepControl(second, dtS);
  let inLPerS = 0;
  for (let pump = 0; pump < units.length; pump++) {
    const unit = units[pump]!;
    const before = unit.flowLPerS;
    const changed = stepUnit(second, unit, isCalled(second, pump), dtS);
    if (changed) {
      recordChange(second, pump, plan.tank ? shownKpa(second) : undefined);
      if (!unit.on) strike(second.ring, second.tMs, -before, TEE_M);
    }
    inLPerS += unit.flowLPerS;
  }
  second.inLPerS = inLPerS;
  const leakLPerS = second.tank ? moveWater(second, dtS) : moveStore(second, dtS);
  second.tMs += dtMs;
  integrateAmps(second, dtS);
  recordWater(second, leakLPerS, dtS);
  stepAquifer(plan.aquifer, second.aquifer, {
    pumpedLPerS: inLPerS,
    screenOpen: condition.screenOpen,
    dtS,
  });
  second.levelM = Math.min(plan.aquifer.intakeM, levelM(plan.aquifer, second.aquifer, condition.levelFallM));
}

/** Through the tee, into the tank and out to the taps; the leak behind the tank, L/s. */
function moveWater(second: Second, dtS: number): number {
  const { condition, demand, units, inLPerS, plan } = second;
  const tank = second.tank!;
  const before = second.drawnLPerS;
  const openLPerS = demand.lPerS * condition.useRatio + condition.leakLPerS;
  const byPressure = openLPerS === 0 ? 0 : rootOfPressure(second, openLPerS, dtS);
  const leakLPerS = condition.leakLPerS * byPressure;
  second.drawnLPerS = openLPerS * byPressure;
  if (Math.abs(second.drawnLPerS - before) > 0.05)
    strike(second.ring, second.tMs, before - second.drawnLPerS, TEE_M);
  const resting = units.every(({ on }) => !on);
  const backLPerS = resting ? backflow(second) : 0;
  const overKpa = Math.max(0, second.kpa - (plan.reliefKpa ?? Number.POSITIVE_INFINITY));
  const outLPerS = second.drawnLPerS + backLPerS + RELIEF_L_PER_S_PER_KPA * overKpa;
  const netLPerS = inLPerS - outLPerS + swelling(second, dtS);
  second.movingLPerS = netLPerS;
  if (netLPerS !== 0 || tank.excess !== 0) stepTank(tank, netLPerS * dtS, dtS);
  second.kpa = Math.max(0, gaugeKpa(tank) + TANK_LINE_KPA * netLPerS * Math.abs(netLPerS));
  return leakLPerS;
}

/**
 * Flow out goes with the root of pressure. An empty tank gives so little that a step would
 * overshoot, so the root is taken at the step's end: give (p1 - p0) = (in - open root(p1)) dt, a
 * quadratic.
 */
function rootOfPressure({ tank, kpa, inLPerS }: Second, openLPerS: number, dtS: number): number {
  const gives = givesLPerKpa(tank!) * GIVEN_AT_KPA;
  const b = openLPerS * dtS;
  const c = gives * (Math.max(0, kpa) / GIVEN_AT_KPA) + inLPerS * dtS;
  return (Math.sqrt(b * b + 4 * gives * c) - b) / (2 * gives);
}

/** Down the drop pipe while the pump rests, by a check valve or a hole that leaks. */
function backflow({ condition, kpa, levelM: level }: Second): number {
  const { checkValveLeak, dropPipeHole } = condition;
  if (checkValveLeak + dropPipeHole === 0 || kpa <= 0) return 0;
  return (checkValveLeak + dropPipeHole) * Math.sqrt(headOfKpa(kpa) + level);
}

function swelling(second: Second, dtS: number): number {
  if (second.plan.waterHeater !== true) return 0;
  const lPerS = second.swellL / SWELLS_S;
  second.swellL += (second.drawnLPerS * HOT_RATIO * SWELLS_BY - lPerS) * dtS;
  if (second.swellL < 1e-6) second.swellL = 0;
  return lPerS;
}

/** Into a store that people and animals draw from; what overflows is lost. */
function moveStore(second: Second, dtS: number): number {
  const { condition, demand, plan, inLPerS } = second;
  const { control } = plan;
  if (!('store' in control)) return 0;
  const leakLPerS = condition.storeLeakLPerS;
  second.drawnLPerS = second.storeM > 0 ? demand.lPerS * condition.useRatio + leakLPerS : 0;
  second.movingLPerS = inLPerS - second.drawnLPerS;
  const byM = (second.movingLPerS * dtS) / 1000 / control.store.areaM2;
  second.storeM = Math.min(control.store.overflowM, Math.max(0, second.storeM + byM));
  const restKpa = kpaOfHead(control.store.inletM);
  second.kpa = restKpa + STORE_LINE_KPA * inLPerS * inLPerS;
  return leakLPerS;
}
