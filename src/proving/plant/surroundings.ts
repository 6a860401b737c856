/**
 * What the plant finds itself in, looked up every few seconds: what is wrong by its story, the room by hour and season, the supply's
 * own wander, the household's habits, the draws that were planned.
 */
import { demandMinute } from '../model/demand.ts';
import { localHour } from './controls.ts';
import { SOUND, type Condition } from './params.ts';
import type { Plant } from './state.ts';
import { dissolve, seekCharge } from './tank.ts';

export const LOOK_MS = 5000;
const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;
const KELVIN = 273.15;
/** Where the taps ran dry people close them after some minutes, and try again later. */
const GIVE_UP_S = 300;
/** The year's warmest day is about 1 August, north of the equator. */
const WARMEST_DAY = 213;

/** What is wrong with a pump is kept to the pump it is wrong with. */
function forPump(condition: Condition, at: number): Condition {
  if (condition.onlyPump === -1 || condition.onlyPump === at) return condition;
  const { worn, drag, backwards, failsToStartS, lockedForS, dropPipeLost, deadLeg, unevenLegs } = SOUND;
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

function lookAtStory(plant: Plant): void {
  const told = plant.plan.story?.(plant.tMs);
  if (told === plant.told) return;
  const was = plant.condition;
  plant.told = told;
  plant.condition = { ...SOUND, ...told };
  if (was.circuitDead !== plant.condition.circuitDead) plant.stirred = true;
  for (const [at, unit] of plant.units.entries()) unit.condition = forPump(plant.condition, at);
  if (!plant.condition.lineFrozen) plant.frozenKpa = undefined;
  else plant.frozenKpa ??= plant.teeKpa;
}

function lookAtRoom(plant: Plant): void {
  const { plan } = plant;
  if (plant.told?.temperatureC !== undefined) {
    plant.roomK = plant.told.temperatureC + KELVIN;
    return;
  }
  const day = (plant.tMs / DAY_MS + 365.25 * 100) % 365.25;
  const season = Math.cos(((day - WARMEST_DAY) / 365.25) * 2 * Math.PI);
  const hours = Math.cos(((localHour(plant) - 16) / 24) * 2 * Math.PI);
  plant.roomK =
    KELVIN + plant.condition.temperatureC + (plan.seasonSwingC ?? 4) * season + (plan.daySwingC ?? 2) * hours;
}

/** The supply wanders within about one per cent, and sags in the evening. */
function lookAtSupply(plant: Plant): void {
  const evening = Math.exp(-(((localHour(plant) - 19) / 2.5) ** 2));
  const usual = 1 - 0.008 * evening;
  plant.wanderShare += 0.03 * (usual - plant.wanderShare) + 0.0014 * plant.chance.normal();
  plant.voltShare = plant.wanderShare * plant.condition.voltShare;
}

function lookAtHabits(plant: Plant): void {
  const hour = Math.floor(localHour(plant));
  const minute = Math.floor(plant.tMs / MINUTE_MS) % 60;
  if (hour === 3 && minute === 0) plant.dayShare = 0.75 + 0.5 * plant.habits.next();
  const share = plant.dayShare * (plant.plan.share?.(plant.tMs) ?? 1);
  const open = plant.demand.open.length;
  demandMinute(plant.demand, hour, share, plant.habits);
  if (plant.demand.open.length > open) plant.stirred = true;
  const draws = plant.plan.draws ?? [];
  plant.drawsNow = draws.filter((d) => d.fromMs < plant.tMs + MINUTE_MS && d.untilMs > plant.tMs);
}

/** Looks round; `plant.tMs` is a multiple of `LOOK_MS`. */
export function look(plant: Plant): void {
  lookAtStory(plant);
  const lookS = LOOK_MS / 1000;
  if (plant.tMs % MINUTE_MS === 0) {
    lookAtRoom(plant);
    lookAtSupply(plant);
    lookAtHabits(plant);
  } else plant.voltShare = plant.wanderShare * plant.condition.voltShare;
  let lPerS = 0;
  for (const d of plant.drawsNow) if (d.fromMs <= plant.tMs && plant.tMs < d.untilMs) lPerS += d.lPerS;
  if (lPerS !== plant.drawLPerS) plant.stirred = true;
  plant.drawLPerS = lPerS;
  plant.dryS = plant.teeKpa < 15 && plant.tank ? plant.dryS + lookS : 0;
  if (plant.dryS > GIVE_UP_S) plant.demand.open = [];
  const { tank } = plant;
  if (!tank) return;
  const { airLost, bladderBurst } = plant.condition;
  if (tank.captive) seekCharge(tank, airLost, bladderBurst, lookS);
  if (!tank.captive || bladderBurst) dissolve(tank, lookS);
}
