/** What is remembered of the water of one well between two readings, and what a new card or a repair makes of it. */
import type { SwitchCard, TankCard } from '../card/card.ts';
import { USUAL_COOLING_S, type AirState } from './air.ts';
import { newCeaseless } from './ceaseless.ts';
import { newCooling, type Cooling } from './cooling.ts';
import { newDoubt, type DayDoubt } from './day-doubt.ts';
import { newDelivery, type Delivery } from './delivery.ts';
import { newHeld, type Held } from './held.ts';
import type { Knee } from './knee.ts';
import { newQuiet, type Quiet } from './quiet.ts';
import type { OpenRun } from './run.ts';
import { airNowKpaL } from './tank-air.ts';
import { atmosphereKpa, tankOf, type Tank } from './tank.ts';
import type { Trace } from './trace.ts';

/** What hydraulics needs of the card. */
export interface WaterCard {
  altitudeM: number;
  tank?: TankCard;
  switch?: SwitchCard;
  ratedLPerS?: number;
}

export interface WaterState {
  card: WaterCard;
  tank: Tank | null;
  atmosphereKpa: number;
  held: Held;
  air: AirState | null;
  coolingS: number;
  coolingLearnt: boolean;
  /** The one that the kept fills were read with. */
  notesCoolingS: number;
  cooling: Cooling;
  trace: Trace | null;
  /** What the pump at work delivers, or the last one that was; of several on one tank those of the others are kept beside it. */
  delivery: Delivery;
  others: Record<string, Delivery>;
  pump: number;
  /** The pumps that run now, and whether there were two of them in this run. */
  running: number[];
  mixed: boolean;
  knee: Knee;
  /** The air charge as now known, kPa L; 0 without a tank on the card. */
  airNowKpaL: number;
  run: OpenRun | null;
  /** When the last run stopped, or readings began; -1 before that. */
  restSinceMs: number;
  /** Last booked reading. */
  lastMs: number;
  lastKpa: number;
  lastRoom: number;
  /** Time between the last two readings booked. */
  stepMs: number;
  /** Mean step between neighbouring readings at rest, kPa: the transducer's noise. */
  stepKpa: number;
  /** Water drawn and seconds covered since the day began. */
  usedL: number;
  coveredS: number;
  /** Absent in a state saved before it was kept. */
  doubt?: DayDoubt;
  quiet: Quiet;
  /** Loss at rest of the last whole day, as L/h of the tank, or of some tank where none is known. */
  dayLossLPerH?: number;
}

/** Mean step of readings is 1.13 sigma for normal noise. */
const STEP_TO_SIGMA = 0.886;
/** Air charge for the leak's bins where no tank is known. */
const SOME_AIR_KPA_L = 84_000;

export function newWater(card: WaterCard): WaterState {
  const tank = tankOf(card.tank, card.altitudeM) ?? null;
  const delivery = newDelivery();
  return {
    card,
    tank,
    atmosphereKpa: atmosphereKpa(card.altitudeM),
    held: newHeld(),
    air: null,
    coolingS: USUAL_COOLING_S,
    coolingLearnt: false,
    notesCoolingS: USUAL_COOLING_S,
    cooling: newCooling(),
    trace: null,
    delivery,
    others: {},
    pump: 0,
    running: [],
    mixed: false,
    knee: [],
    airNowKpaL: airNowKpaL({ delivery, knee: [], tank }),
    run: null,
    restSinceMs: -1,
    lastMs: -1,
    lastKpa: 0,
    lastRoom: 0,
    stepMs: 0,
    stepKpa: 1,
    usedL: 0,
    coveredS: 0,
    doubt: newDoubt(),
    quiet: newQuiet(),
  };
}

/** Takes a new card. Where tank, switch or pump is another, what was learnt of delivery starts again. */
export function setWaterCard(state: WaterState, card: WaterCard): void {
  if (JSON.stringify(card) === JSON.stringify(state.card)) return;
  state.card = card;
  state.tank = tankOf(card.tank, card.altitudeM) ?? null;
  state.atmosphereKpa = atmosphereKpa(card.altitudeM);
  state.air = null;
  state.trace = null;
  // What was booked so far is in litres of another tank.
  state.quiet.ceaseless = newCeaseless();
  delete state.dayLossLPerH;
  startNewBaseline(state);
}

/** What was learnt of the pump and the air charge starts again, as after a repair. */
export function startNewBaseline(state: WaterState): void {
  state.delivery = newDelivery();
  state.others = {};
  state.knee = [];
  state.airNowKpaL = airNowKpaL(state);
}

/** Noise of one reading, kPa. */
export function noiseKpa(state: WaterState): number {
  return Math.max(0.2, state.stepKpa * STEP_TO_SIGMA);
}

/** The air charge that the quiet hours are reckoned with, kPa L: some tank's where none is known. */
export function quietAirKpaL(state: WaterState): number {
  return state.airNowKpaL || SOME_AIR_KPA_L;
}
