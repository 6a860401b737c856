/**
 * The water balance of one step: what comes up, what is drawn, leaks, falls back or spills, and
 * what the tank or store makes of it. Pressure at the tee is the tank's with the loss between them:
 * it reads higher while the tank fills, lower while it gives.
 */
import { demandStep } from '../model/demand.ts';
import { liftM, stepHole } from './hole.ts';
import type { ControlPlan } from './params.ts';
import type { Plant } from './state.ts';
import {
  airKpa,
  releaseAir,
  chargeAtStart,
  exchangeHeat,
  moveWater,
  waterL,
  type TankState,
} from './tank.ts';
import { recordWater } from './truth.ts';
import { updateFlow } from './unit.ts';

const KPA_PER_M = 9.80665;
/** Leaks are given at this pressure, kPa. */
const LEAK_AT_KPA = 350;
/** Where no tank is left to soften it, pressure follows flow in this time, s. */
const PIPE_TIME_CONSTANT_S = 0.15;
/** Pressure over which a constant-pressure valve goes from open to its least, kPa. */
const VALVE_BAND_KPA = 18;
/** A relief valve opens fully within this, kPa, to this flow, L/s. */
const RELIEF_BAND_KPA = 25;
const RELIEF_L_PER_S = 1.2;
/** A store is filled from above: so much lift over the tee, kPa. */
const STORE_INLET_KPA = 15;

/** What a constant-pressure valve lets through at a pressure behind it, L/s. */
function valveFlow(by: ControlPlan, kpa: number, openLPerS: number): number {
  if (by.is !== 'constant-pressure-valve') return Infinity;
  const open = Math.min(1, Math.max(0, (by.setKpa - kpa) / VALVE_BAND_KPA));
  return by.minLPerS + Math.max(0, openLPerS - by.minLPerS) * open;
}

/** All pumps together, up to the tee, L/s; the hole follows. */
function pumpedFlow(plant: Plant, kpa: number, dtS: number): number {
  const { units, hole, plan } = plant;
  const lifted = liftM(plan.hole, hole, plant.condition);
  let up = 0;
  for (const unit of units) {
    if (unit.state === 'off' && unit.throughLPerS === 0) continue;
    const capLPerS = valveFlow(plan.control, kpa, unit.plan.runOutLPerS);
    updateFlow(unit, {
      liftM: lifted,
      kpa,
      sucksAir: hole.sucksAir,
      voltRatio: plant.voltRatio,
      capLPerS,
      dtS,
    });
    up += unit.upLPerS;
  }
  return up;
}

/**
 * Water that falls back while everything rests, L/s; where the tank has none left the drop pipe
 * drains.
 */
function backflow(plant: Plant, dtS: number): number {
  const { backLeakLPerS, dropPipeDrainsLPerS } = plant.condition;
  if (backLeakLPerS === 0 && dropPipeDrainsLPerS === 0) return 0;
  let runs = false;
  for (const unit of plant.units) runs ||= unit.state === 'runs';
  if (runs) return 0;
  const depth = KPA_PER_M * liftM(plant.plan.hole, plant.hole, plant.condition);
  const rate = backLeakLPerS * Math.sqrt((plant.teeKpa + depth) / (LEAK_AT_KPA + depth));
  const empty = plant.teeKpa < 1;
  const drains = dropPipeDrainsLPerS + (empty ? rate : 0);
  if (drains > 0)
    for (const unit of plant.units) unit.emptyL = Math.min(unit.plan.dropPipeL, unit.emptyL + drains * dtS);
  return empty ? 0 : rate;
}

function reliefFlow(plant: Plant): number {
  const { reliefKpa } = plant.plan;
  if (reliefKpa === undefined || plant.teeKpa <= reliefKpa) return 0;
  return RELIEF_L_PER_S * Math.min(1, (plant.teeKpa - reliefKpa) / RELIEF_BAND_KPA);
}

/** Gauge pressure of the tank, kPa, at its foot: the air's and the water that stands in it. */
function footKpa(plant: Plant, tank: TankState): number {
  const high = (2 * tank.sideM2) / (2 * Math.PI * Math.sqrt((4 * tank.endM2) / Math.PI));
  return airKpa(tank) - plant.atmosphereKpa + (KPA_PER_M * high * waterL(tank)) / tank.volumeL;
}

/**
 * A bladder that rests on its bottom holds nothing: pressure is what the flow makes of it, and at
 * most the air's.
 */
function withoutTank(plant: Plant, tank: TankState, inL: number, outL: number, dtS: number): number {
  const ease = flowRatioAt(plant);
  const rate = outL / dtS;
  const atAir = airKpa(tank) - plant.atmosphereKpa;
  // Outlets go with the root of pressure: at which pressure would they take just what comes in?
  const takes = ease > 0.01 ? rate / ease : openRate(plant);
  const wanted = takes > 1e-6 ? plant.ratedKpa * (inL / dtS / takes) ** 2 : inL > 0 ? atAir : plant.teeKpa;
  const near = Math.min(wanted, atAir + 0.5);
  plant.teeKpa += ((near - plant.teeKpa) * dtS) / (PIPE_TIME_CONSTANT_S + dtS);
  if (wanted >= atAir && plant.teeKpa >= atAir - 2 && inL > outL) moveWater(tank, inL - outL, plant.wellK);
  return Math.max(0, outL - inL);
}

/**
 * A bladder closes over its outlet as its last water leaves: the loss grows with the square of this
 * share of the tank over what is left.
 */
const CHOKE_RATIO = 0.015;

/**
 * Pressure at the tee of a nearly empty bladder, where what is drawn and what that costs depend on
 * one another, kPa.
 */
function chokedKpa(plant: Plant, tank: TankState, upLPerS: number, atMs: number): number {
  const left = Math.max(1e-3, waterL(tank));
  const loss = plant.teeLossKpa * (1 + ((CHOKE_RATIO * tank.volumeL) / left) ** 2);
  const open = openRate(plant) + reliefFlow(plant);
  let low = 0;
  let high = plant.tankKpa;
  for (let i = 0; i < 14; i++) {
    const middle = (low + high) / 2;
    const net = open * Math.sqrt(middle / plant.ratedKpa) - upLPerS;
    if (middle < plant.tankKpa - loss * net * Math.abs(net)) low = middle;
    else high = middle;
  }
  return plant.teeKpa + ((low - plant.teeKpa) * atMs) / (1000 * PIPE_TIME_CONSTANT_S + atMs);
}

/** What all that is open would take at the rated pressure, L/s. */
function openRate(plant: Plant): number {
  let rate = plant.drawLPerS + plant.condition.leakLPerS * Math.sqrt(plant.ratedKpa / LEAK_AT_KPA);
  for (const open of plant.demand.open) rate += open.lPerS;
  return rate;
}

/**
 * How freely the taps run, as a share of their rated flow: the root of pressure, until a regulator
 * holds it.
 */
function flowRatioAt(plant: Plant): number {
  return Math.min(1.2, Math.sqrt(Math.max(0, plant.teeKpa) / plant.ratedKpa));
}

/** One step of a well with a pressure tank. Returns what came up, L/s. */
function pressureStep(plant: Plant, tank: TankState, dtS: number): number {
  const { condition } = plant;
  const was = plant.teeKpa;
  const up = pumpedFlow(plant, was, dtS);
  const back = backflow(plant, dtS);
  const ease = flowRatioAt(plant);
  const taps = demandStep(plant.demand, dtS, ease) + plant.drawLPerS * ease * dtS;
  const leak =
    condition.leakLPerS === 0 ? 0 : condition.leakLPerS * Math.sqrt(Math.max(0, was) / LEAK_AT_KPA) * dtS;
  const out = taps + leak + reliefFlow(plant) * dtS;
  const into = (up + condition.heatExpansionLPerS) * dtS;
  const held = waterL(tank);
  const touching = !tank.captive || condition.bladderBurst;
  let short: number;
  if (held <= 1e-9 && !touching) short = withoutTank(plant, tank, into, out + back * dtS, dtS);
  else {
    const net = into - out - back * dtS;
    short = moveWater(tank, net, plant.wellK);
    if (touching) {
      releaseAir(tank, out, tank.captive);
      if (short > 0)
        tank.airJPerK = Math.max(
          (plant.atmosphereKpa * tank.volumeL) / tank.airK,
          tank.airJPerK * (1 - short / tank.volumeL),
        );
    }
    plant.netLPerS = net / dtS;
    exchangeHeat(tank, dtS, plant.roomK);
    plant.tankKpa = Math.max(0, footKpa(plant, tank));
    const loss = plant.teeLossKpa * plant.netLPerS * Math.abs(plant.netLPerS);
    if (short > 0 && !touching) plant.teeKpa = was;
    else if (!touching && net < 0 && waterL(tank) < 2 * CHOKE_RATIO * tank.volumeL)
      plant.teeKpa = chokedKpa(plant, tank, into / dtS, dtS * 1000);
    else plant.teeKpa = Math.max(0, plant.tankKpa + loss);
  }
  plant.slopeKpaPerS = (plant.teeKpa - was) / dtS;
  const given = out > 0 ? Math.max(0, 1 - short / out) : 1;
  recordWater(plant.truth, plant.tMs + dtS * 1000, out * given, leak * given);
  stepHole(plant.plan.hole, plant.hole, condition, { pumpedLPerS: up - back, dtS });
  return up;
}

/** One step of a well that fills a store. */
function storeStep(plant: Plant, storeL: number, dtS: number): number {
  const { condition } = plant;
  const up = pumpedFlow(plant, STORE_INLET_KPA, dtS);
  const flowing = up > 0 ? STORE_INLET_KPA + 3 * plant.teeLossKpa * up * up : 0;
  // The line empties into the store when the pump stops.
  plant.teeKpa += ((flowing - plant.teeKpa) * dtS) / (1.5 + dtS);
  const taps = plant.storeL > 0 ? demandStep(plant.demand, dtS) + plant.drawLPerS * dtS : 0;
  const loss = condition.storeLossLPerS * dtS;
  const leak = condition.leakLPerS * dtS;
  const gone = Math.min(plant.storeL + up * dtS, taps + loss + leak);
  plant.storeL = Math.min(storeL, plant.storeL + up * dtS - gone);
  plant.netLPerS = up;
  plant.slopeKpaPerS = 0;
  recordWater(plant.truth, plant.tMs + dtS * 1000, gone, Math.min(gone, loss + leak));
  const back = backflow(plant, dtS);
  stepHole(plant.plan.hole, plant.hole, condition, { pumpedLPerS: up - back, dtS });
  return up;
}

/** Water moves for `dtS`. */
export function stepWater(plant: Plant, dtS: number): number {
  const by = plant.plan.control;
  if (by.is === 'float' || by.is === 'timer') return storeStep(plant, by.storeL, dtS);
  return pressureStep(plant, plant.tank!, dtS);
}

/** A start gives a plain tank some air. */
export function addAirAtStart(plant: Plant): void {
  if (plant.tank && !plant.tank.captive) chargeAtStart(plant.tank, plant.condition.airLost);
}
