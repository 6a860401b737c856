/**
 * What the plant finds itself in, looked up every few seconds: what is wrong by its story, the room
 * by hour and season, the supply's own wander, the household's habits, the draws that were planned.
 */
import { DAY_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { demandMinute } from '../model/demand.ts';
import { localHour } from './controls.ts';
import { HEALTHY, type Condition } from './params.ts';
import type { Plant } from './state.ts';
import { dissolve, adjustCharge } from './tank.ts';

export const UPDATE_MS = 5000;
const KELVIN = 273.15;
/** Where the taps ran dry people close them after some minutes, and try again later. */
const CLOSE_TAPS_AFTER_S = 300;
/** The year's warmest day is about 1 August, north of the equator. */
const WARMEST_DAY = 213;

/** What is wrong with a pump is kept to the pump it is wrong with. */
function forPump(condition: Condition, at: number): Condition {
  if (condition.onlyPump === -1 || condition.onlyPump === at) return condition;
  const { worn, drag, backwards, failsToStartS, lockedForS, dropPipeLost, deadLeg, unevenLegs } = HEALTHY;
  return {
    ...condition,
    worn,
    drag,
    backwards,
    failsToStartS,
    lockedForS,
    dropPipeLost,
    deadLeg,
    unevenLegs,
  };
}

function updateCondition(plant: Plant): void {
  const scheduled = plant.plan.schedule?.(plant.tMs);
  if (scheduled === plant.scheduledCondition) return;
  const was = plant.condition;
  plant.scheduledCondition = scheduled;
  plant.condition = { ...HEALTHY, ...scheduled };
  if (was.circuitDead !== plant.condition.circuitDead) plant.needsFineStep = true;
  for (const [at, unit] of plant.units.entries()) unit.condition = forPump(plant.condition, at);
  if (!plant.condition.lineFrozen) plant.frozenKpa = undefined;
  else plant.frozenKpa ??= plant.teeKpa;
}

function updateRoom(plant: Plant): void {
  const { plan } = plant;
  if (plant.scheduledCondition?.temperatureC !== undefined) {
    plant.roomK = plant.scheduledCondition.temperatureC + KELVIN;
    return;
  }
  const day = (plant.tMs / DAY_MS + 365.25 * 100) % 365.25;
  const season = Math.cos(((day - WARMEST_DAY) / 365.25) * 2 * Math.PI);
  const hours = Math.cos(((localHour(plant) - 16) / 24) * 2 * Math.PI);
  plant.roomK =
    KELVIN + plant.condition.temperatureC + (plan.seasonSwingC ?? 4) * season + (plan.daySwingC ?? 2) * hours;
}

/** The supply wanders within about one per cent, and sags in the evening. */
function updateSupply(plant: Plant): void {
  const evening = Math.exp(-(((localHour(plant) - 19) / 2.5) ** 2));
  const target = 1 - 0.008 * evening;
  plant.supplyDriftRatio += 0.03 * (target - plant.supplyDriftRatio) + 0.0014 * plant.chance.normal();
  plant.voltRatio = plant.supplyDriftRatio * plant.condition.voltRatio;
}

function updateDemand(plant: Plant): void {
  const hour = Math.floor(localHour(plant));
  const minute = Math.floor(plant.tMs / MINUTE_MS) % 60;
  if (hour === 3 && minute === 0) plant.dayUseRatio = 0.75 + 0.5 * plant.habits.next();
  const useRatio = plant.dayUseRatio * (plant.plan.useRatio?.(plant.tMs) ?? 1);
  const open = plant.demand.open.length;
  demandMinute(plant.demand, hour, useRatio, plant.habits);
  if (plant.demand.open.length > open) plant.needsFineStep = true;
  const draws = plant.plan.draws ?? [];
  plant.drawsNow = draws.filter((d) => d.fromMs < plant.tMs + MINUTE_MS && d.untilMs > plant.tMs);
}

/** Looks round; `plant.tMs` is a multiple of `UPDATE_MS`. */
export function updateSurroundings(plant: Plant): void {
  updateCondition(plant);
  const updateS = UPDATE_MS / 1000;
  if (plant.tMs % MINUTE_MS === 0) {
    updateRoom(plant);
    updateSupply(plant);
    updateDemand(plant);
  } else plant.voltRatio = plant.supplyDriftRatio * plant.condition.voltRatio;
  let lPerS = 0;
  for (const d of plant.drawsNow) if (d.fromMs <= plant.tMs && plant.tMs < d.untilMs) lPerS += d.lPerS;
  if (lPerS !== plant.drawLPerS) plant.needsFineStep = true;
  plant.drawLPerS = lPerS;
  plant.dryS = plant.teeKpa < 15 && plant.tank ? plant.dryS + updateS : 0;
  if (plant.dryS > CLOSE_TAPS_AFTER_S) plant.demand.open = [];
  const { tank } = plant;
  if (!tank) return;
  const { airLost, bladderBurst } = plant.condition;
  if (tank.captive) adjustCharge(tank, airLost, bladderBurst, updateS);
  if (!tank.captive || bladderBurst) dissolve(tank, updateS);
}
