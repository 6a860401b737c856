/**
 * What is remembered of the water of one well between two readings, and what a new card or a repair
 * makes of it.
 */
import type { SwitchCard, TankCard } from '../domain/card.ts';
import { DEFAULT_RESPONSE, type AirResponse, type AirState } from './air.ts';
import { newHourlyLows } from './continuous-loss.ts';
import { newCoolingEstimate, type CoolingEstimate } from './cooling.ts';
import { newDayQuality, type DayQuality } from './day-quality.ts';
import { newDeliveryEstimate, type DeliveryEstimate } from './delivery.ts';
import { newDelayBuffer, type DelayBuffer } from './delay-buffer.ts';
import type { Knee } from './knee.ts';
import { newQuietBlocks, type QuietBlocks } from './quiet-blocks.ts';
import type { RunWaterState } from './run-volume.ts';
import { currentAirKpaL } from './tank-air.ts';
import { atmosphereKpa, tankOf, type Tank } from './tank.ts';
import type { Trace } from './trace.ts';

/** What hydraulics needs of the card. */
export interface WaterCard {
  altitudeM: number;
  tank?: TankCard;
  switch?: SwitchCard;
  ratedLPerS?: number;
}

export interface WaterState extends AirResponse {
  card: WaterCard;
  tank: Tank | null;
  atmosphereKpa: number;
  delayBuffer: DelayBuffer;
  air: AirState | null;
  coolingLearned: boolean;
  /** The response that the kept fills were read with. */
  fillsResponse: AirResponse;
  cooling: CoolingEstimate;
  trace: Trace | null;
  /**
   * What the pump at work delivers, or the last one that was; of several on one tank those of the
   * others are kept beside it.
   */
  delivery: DeliveryEstimate;
  otherDeliveries: Record<string, DeliveryEstimate>;
  deliveryPump: number;
  /** The pumps that run now, and whether there were two of them in this run. */
  runningPumps: number[];
  multiplePumps: boolean;
  knee: Knee;
  /** The air charge as now known, kPa L; 0 without a tank on the card. */
  currentAirKpaL: number;
  run: RunWaterState | null;
  /** When the last run stopped, or readings began; -1 before that. */
  restSinceMs: number;
  /** Last booked reading. */
  lastMs: number;
  lastKpa: number;
  lastAirVolume: number;
  /** Time between the last two readings booked. */
  stepMs: number;
  /** Mean step between neighbouring readings at rest, kPa: the transducer's noise. */
  meanStepKpa: number;
  /** Water drawn and seconds covered since the day began. */
  usedL: number;
  coveredS: number;
  /** Absent in a state saved before it was kept. */
  dayQuality?: DayQuality;
  quietBlocks: QuietBlocks;
  /**
   * Loss at rest of the last whole day, as L/h of the tank, or of some tank where none is known.
   */
  dayLossLPerH?: number;
}

/** Mean step of readings is 1.13 sigma for normal noise. */
const STEP_TO_SIGMA = 0.886;
/** Air charge for the leak's bins where no tank is known. */
const ASSUMED_AIR_KPA_L = 84_000;

export function newWaterState(card: WaterCard): WaterState {
  const tank = tankOf(card.tank, card.altitudeM) ?? null;
  const delivery = newDeliveryEstimate();
  return {
    card,
    tank,
    atmosphereKpa: atmosphereKpa(card.altitudeM),
    delayBuffer: newDelayBuffer(),
    air: null,
    ...DEFAULT_RESPONSE,
    coolingLearned: false,
    fillsResponse: { ...DEFAULT_RESPONSE },
    cooling: newCoolingEstimate(),
    trace: null,
    delivery,
    otherDeliveries: {},
    deliveryPump: 0,
    runningPumps: [],
    multiplePumps: false,
    knee: [],
    currentAirKpaL: currentAirKpaL({ delivery, knee: [], tank }),
    run: null,
    restSinceMs: -1,
    lastMs: -1,
    lastKpa: 0,
    lastAirVolume: 0,
    stepMs: 0,
    meanStepKpa: 1,
    usedL: 0,
    coveredS: 0,
    dayQuality: newDayQuality(),
    quietBlocks: newQuietBlocks(),
  };
}

/**
 * Takes a new card. Where tank, switch or pump is another, what was learnt of delivery starts
 * again.
 */
export function setWaterCard(state: WaterState, card: WaterCard): void {
  if (JSON.stringify(card) === JSON.stringify(state.card)) return;
  state.card = card;
  state.tank = tankOf(card.tank, card.altitudeM) ?? null;
  state.atmosphereKpa = atmosphereKpa(card.altitudeM);
  state.air = null;
  state.trace = null;
  // What was booked so far is in litres of another tank.
  state.quietBlocks.hourlyLows = newHourlyLows();
  delete state.dayLossLPerH;
  resetWaterBaseline(state);
}

/** What was learnt of the pump and the air charge starts again, as after a repair. */
export function resetWaterBaseline(state: WaterState): void {
  state.delivery = newDeliveryEstimate();
  state.otherDeliveries = {};
  state.knee = [];
  state.currentAirKpaL = currentAirKpaL(state);
}

/** Noise of one reading, kPa. */
export function noiseKpa(state: WaterState): number {
  return Math.max(0.2, state.meanStepKpa * STEP_TO_SIGMA);
}

/**
 * The air charge that the quiet hours are reckoned with, kPa L: some tank's where none is known.
 */
export function leakAirKpaL(state: WaterState): number {
  return state.currentAirKpaL || ASSUMED_AIR_KPA_L;
}
