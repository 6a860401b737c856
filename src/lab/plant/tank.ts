/**
 * The tank of the simulated plant: a mass of air with an energy balance of its own. It warms as it
 * is pressed, gives heat by natural convection to the wall and to the water beneath it, and the
 * wall gives it on to the room. Water comes in as cold as the ground. A captive bladder bottoms
 * when its water is out; air that touches water dissolves in it and is carried off. Heat transfer:
 * turbulent natural convection, Nu ~ Ra^(1/3) (textbook form; coefficients from memory).
 */
import type { TankPlan } from './params.ts';

export interface TankState {
  captive: boolean;
  volumeL: number;
  /**
   * Air as mass times gas constant, J/K: pressure (kPa) x volume (L) / temperature (K). What a full
   * charge is, and what is there.
   */
  chargeJPerK: number;
  airJPerK: number;
  airL: number;
  airK: number;
  wallK: number;
  waterK: number;
  /** Air dissolved in each litre of the tank's water, J/K per L. */
  dissolvedJPerK: number;
  /** Water taken in since air and water last met, L. */
  freshL: number;
  /** Surfaces, m2: the top and one side, for the share that air or water takes. */
  endM2: number;
  sideM2: number;
}

/**
 * Heat of air at constant volume in units of its gas constant, and the exponent that goes with it
 * (diatomic gas).
 */
const CV = 2.5;
const GAS_EXPONENT = 0.4;
/** Convection to a wall at 1 K and one atmosphere, W/m2 K. */
const CONVECTION = 1.3;
/** Steel of 2 mm: 7850 kg/m3 x 460 J/kg K. */
const WALL_J_PER_M2_K = 7200;
/** Wall to room, W/m2 K: convection and radiation. */
const WALL_TO_ROOM = 8;
const WATER_J_PER_L_K = 4186;
/** Some air is always trapped: a share of the full charge. */
const MIN_AIR_RATIO = 0.02;
/**
 * Air that a litre of water takes at one atmosphere of air over it, J/K: 0.0226 L at 0 C, about 12
 * C (handbook value, from memory).
 */
const SOLUBLE_J_PER_K = (0.0226 * 101.325) / 273.15;
/**
 * Speed at which air goes into still water, m/s; a jet stirs it (order of magnitude, from memory).
 */
const DISSOLVE_M_PER_S = 1.5e-5;
const STIRRED = 4;

export function newTank(plan: TankPlan, atmosphereKpa: number, gaugeKpa: number, roomK: number): TankState {
  const airJPerK = (plan.volumeL * (plan.prechargeKpa + atmosphereKpa)) / roomK;
  // A cylinder twice as high as wide.
  const widthM = Math.cbrt((2 * plan.volumeL) / 1000 / Math.PI);
  return {
    captive: plan.kind === 'captive-air',
    volumeL: plan.volumeL,
    chargeJPerK: airJPerK,
    airJPerK,
    airL: Math.min(plan.volumeL, (airJPerK * roomK) / (gaugeKpa + atmosphereKpa)),
    airK: roomK,
    wallK: roomK,
    waterK: roomK - 2,
    dissolvedJPerK: SOLUBLE_J_PER_K,
    freshL: 0,
    endM2: (Math.PI * widthM * widthM) / 4,
    sideM2: 2 * Math.PI * widthM * widthM,
  };
}

/** Absolute pressure of the air, kPa. */
export function airKpa(tank: TankState): number {
  return (tank.airJPerK * tank.airK) / tank.airL;
}

export function waterL(tank: TankState): number {
  return tank.volumeL - tank.airL;
}

/**
 * Moves `inL` of water (out if negative) and returns what could not be given because the tank was
 * empty, L.
 */
export function moveWater(tank: TankState, inL: number, wellK: number): number {
  let airL = tank.airL - inL;
  let short = 0;
  if (airL > tank.volumeL) {
    short = airL - tank.volumeL;
    airL = tank.volumeL;
  }
  const x = (airL - tank.airL) / tank.airL;
  tank.airK *= 1 - GAS_EXPONENT * x + 0.5 * GAS_EXPONENT * (1 + GAS_EXPONENT) * x * x;
  if (inL > 0) {
    const water = tank.volumeL - tank.airL + 1;
    tank.waterK += ((wellK - tank.waterK) * inL) / (water + inL);
    tank.freshL += inL;
  }
  tank.airL = airL;
  return short;
}

/** Heat flows for `dtS`: implicit, so that a long step at rest is stable. */
export function exchangeHeat(tank: TankState, dtS: number, roomK: number): void {
  const airRatio = tank.airL / tank.volumeL;
  const dense = Math.cbrt(airKpa(tank) / 101.325);
  const base = CONVECTION * dense * dense;
  const wall =
    base * Math.cbrt(Math.abs(tank.airK - tank.wallK) + 0.05) * (tank.endM2 + tank.sideM2 * airRatio);
  // A bladder is a skin with folds; over open water the damp air carries heat better.
  const water = base * Math.cbrt(Math.abs(tank.airK - tank.waterK) + 0.05) * tank.endM2 * 2;
  const heat = CV * tank.airJPerK;
  const was = tank.airK;
  tank.airK = (heat * was + dtS * (wall * tank.wallK + water * tank.waterK)) / (heat + dtS * (wall + water));
  const metal = WALL_J_PER_M2_K * (tank.endM2 + tank.sideM2 * airRatio);
  const room = WALL_TO_ROOM * (tank.endM2 + tank.sideM2 * airRatio);
  tank.wallK = (metal * tank.wallK + dtS * (wall * tank.airK + room * roomK)) / (metal + dtS * (wall + room));
  const wet = WATER_J_PER_L_K * (tank.volumeL - tank.airL + 1);
  const through = 0.7 * WALL_TO_ROOM * (tank.endM2 + tank.sideM2 * (1 - airRatio));
  tank.waterK =
    (wet * tank.waterK + dtS * (water * tank.airK + through * roomK)) / (wet + dtS * (water + through));
}

/**
 * Air that is lost or pumped in comes and goes at 1 % of a charge in ten seconds: a valve core, not
 * a blast.
 */
export function adjustCharge(tank: TankState, lost: number, burst: boolean, dtS: number): void {
  const due = tank.chargeJPerK * Math.max(MIN_AIR_RATIO, 1 - lost);
  // What a burst bladder let go does not come back by itself.
  const wanted = burst ? Math.min(due, tank.airJPerK) : due;
  const max = tank.chargeJPerK * 0.001 * dtS;
  tank.airJPerK += Math.min(max, Math.max(-max, wanted - tank.airJPerK));
}

/**
 * Air and water touch for `dtS` (no bladder, or a burst one): air dissolves, the fresh water is
 * hungry, the drawn water takes it along.
 */
export function dissolve(tank: TankState, dtS: number): void {
  const water = Math.max(1, waterL(tank));
  const fresh = Math.min(1, tank.freshL / water);
  tank.freshL = 0;
  // Ground water holds nearly as much air as the open air would give it.
  tank.dissolvedJPerK += (0.9 * SOLUBLE_J_PER_K - tank.dissolvedJPerK) * fresh;
  const full = (SOLUBLE_J_PER_K * airKpa(tank)) / 101.325;
  const speed = DISSOLVE_M_PER_S * (fresh > 0 ? STIRRED : 1);
  const max = (full - tank.dissolvedJPerK) * water;
  // m/s x m2 x J/K per L x 1000 L/m3
  let moved = Math.min(max, speed * tank.endM2 * 1000 * (full - tank.dissolvedJPerK) * dtS);
  moved = Math.min(moved, tank.airJPerK - MIN_AIR_RATIO * tank.chargeJPerK);
  tank.airJPerK -= moved;
  tank.dissolvedJPerK += moved / water;
}

/**
 * A start blows some air from the drained top of the drop pipe into a plain tank; the float of the
 * air control lets out what is too much.
 */
export function chargeAtStart(tank: TankState, lost: number): void {
  const max = tank.chargeJPerK * Math.max(MIN_AIR_RATIO, 1 - lost);
  tank.airJPerK = Math.max(tank.airJPerK, Math.min(max, tank.airJPerK + 0.8 * 0.371));
}

/**
 * Water drawn through a torn bladder takes this share of air along: the bag collapses over its
 * outlet (order of magnitude, no source).
 */
const TEAR_RATIO = 0.05;

/**
 * Where air and water touch, air leaves with the water when that is nearly out, and through a
 * `torn` bladder always: `outL` was drawn.
 */
export function releaseAir(tank: TankState, outL: number, torn: boolean): void {
  if (outL <= 0) return;
  const low = 0.06 * tank.volumeL;
  const water = waterL(tank);
  const airRatio = Math.max(torn ? TEAR_RATIO : 0, 1 - water / low);
  if (airRatio <= 0) return;
  const was = tank.airJPerK;
  const air = Math.min(outL * airRatio, 0.5 * tank.airL);
  tank.airJPerK = Math.max(MIN_AIR_RATIO * tank.chargeJPerK, was * (1 - air / tank.airL));
  // What left as air did not leave as water.
  tank.airL -= (tank.airL * (was - tank.airJPerK)) / was;
}
