/**
 * The water of one run: what the pump lifted, what of it the tank took and what was drawn
 * meanwhile. Lifted is the learnt delivery over the pressures that the run went through; before
 * anything is learnt, the run's own rate of fill with the draw that stood before it. Above the
 * pressures ever seen in a fill only what the tank takes is counted: the pump may be at its
 * shut-off there.
 */
import type { AirResponse } from './air.ts';
import { runCorrectionS } from './boundary.ts';
import { DEFAULT_FALL_PER_KPA, rateAt, type DeliveryCurve } from './delivery-curve.ts';
import { measureFill, airVolumeDisplaced, type Fill } from './fill.ts';
import { currentAirKpaL, deliveryRatioOf, type AirInputs } from './tank-air.ts';
import type { Trace } from './trace.ts';

export interface RunWaterState {
  startedMs: number;
  lastMs: number;
  lastKpa: number;
  lastAirVolume: number;
  startKpa: number;
  /** Lowest reading around the start. */
  lowKpa: number;
  startAirVolume: number;
  /** Integral of the learnt rate over the run so far, 1/kPa. */
  lifted: number;
  /** Whether every reading of it found a learnt rate. */
  learned: boolean;
  riseDelayS?: number;
  /** Steady time between readings around the start, s; absent by exception. */
  startStepS?: number;
  /** Readings were lost in it. */
  hasGap: boolean;
}

export interface RunWater {
  /** All water that the pump lifted, L. */
  deliveredL?: number;
  /** What the tank took of it, L. Negative where more was drawn than delivered. */
  tankGainL?: number;
  drawnL?: number;
  /** From the start until pressure has risen 7 kPa. */
  riseDelayS?: number;
  /** Delivery as it now is against that first learnt, 1 = as ever. */
  deliveryRatio?: number;
}

/**
 * 1 psi, over any noise of a reading; the lowest reading of the start lies within its first
 * seconds, while the motor comes up (argued, not measured).
 */
const MIN_RISE_KPA = 7;
const START_WINDOW_MS = 6000;
/** Above the fills' highest pressure by this much, the line of delivery is not followed. */
const MAX_EXTRAPOLATION_KPA = 20;
/** Before anything is learnt a rate this far from the card's is not believed. */
const MAX_RATED_RATIO = 1.6;
const MIN_RATED_RATIO = 0.9;

/**
 * `rested`: the last reading of the rest before, where there is one: the two books share that end.
 */
export function newRunWaterState(
  startedMs: number,
  rested?: { kpa: number; airVolume: number },
): RunWaterState {
  return {
    startedMs,
    lastMs: -1,
    lastKpa: 0,
    lastAirVolume: 0,
    startKpa: 0,
    lowKpa: rested?.kpa ?? 1e9,
    startAirVolume: rested?.airVolume ?? 0,
    lifted: 0,
    learned: true,
    hasGap: false,
  };
}

export function addRunReading(
  run: RunWaterState,
  reading: { atMs: number; kpa: number; airVolume: number; curve: DeliveryCurve | undefined },
): void {
  const { atMs, kpa, airVolume, curve } = reading;
  if (run.lastMs < 0) {
    run.startKpa = kpa;
    if (run.startAirVolume === 0) run.startAirVolume = airVolume;
    run.lastMs = run.startedMs;
  } else if (run.riseDelayS === undefined && kpa - run.startKpa >= MIN_RISE_KPA)
    run.riseDelayS = (atMs - run.startedMs) / 1000;
  if (atMs - run.startedMs <= START_WINDOW_MS) run.lowKpa = Math.min(run.lowKpa, kpa);
  addLiftedWater(run, {
    untilMs: atMs,
    kpa: run.lastKpa === 0 ? kpa : (kpa + run.lastKpa) / 2,
    airVolume,
    curve,
  });
  run.lastMs = atMs;
  run.lastKpa = kpa;
  run.lastAirVolume = airVolume;
}

function addLiftedWater(
  run: RunWaterState,
  step: { untilMs: number; kpa: number; airVolume: number; curve: DeliveryCurve | undefined },
): void {
  const { untilMs, kpa, airVolume, curve } = step;
  if (!curve) run.learned = false;
  else if (kpa <= curve.maxKpa + MAX_EXTRAPOLATION_KPA)
    run.lifted += rateAt(curve, kpa) * ((untilMs - run.lastMs) / 1000);
  else if (run.lastAirVolume > 0) run.lifted += run.lastAirVolume - airVolume;
}

export interface RunInputs extends AirInputs, AirResponse {
  /** The reading after the stop, where readings are steady. */
  stop?: { stepS: number; airVolume: number };
  noiseKpa: number;
  trace: Trace | null;
  atmosphereKpa: number;
  ratedLPerS?: number;
}

export function closeRunWater(run: RunWaterState, stoppedMs: number, inputs: RunInputs): RunWater {
  if (run.lastMs < 0 || run.hasGap) return {};
  const { delivery, tank, trace } = inputs;
  addLiftedWater(run, {
    untilMs: stoppedMs,
    kpa: run.lastKpa,
    airVolume: run.lastAirVolume,
    curve: delivery.curve,
  });
  if (trace && delivery.curve) run.lifted += boundaryCorrection(run, trace, delivery.curve, inputs);
  const ranS = (stoppedMs - run.startedMs) / 1000;
  const fill = trace ? measureFill(trace, inputs) : undefined;
  const gained = (trace && airVolumeDisplaced(trace, inputs)) ?? run.startAirVolume - run.lastAirVolume;
  const ratio = deliveryRatioOf(inputs);
  return {
    ...(tank && runLiters(run, ranS, gained, fill, inputs, currentAirKpaL(inputs))),
    ...(run.riseDelayS !== undefined && { riseDelayS: run.riseDelayS }),
    ...(ratio !== undefined && { deliveryRatio: ratio }),
  };
}

/** What the run's true start and stop between the readings add to what was lifted, 1/kPa. */
function boundaryCorrection(
  run: RunWaterState,
  trace: Trace,
  curve: DeliveryCurve,
  inputs: RunInputs,
): number {
  const rate = rateAt(curve, curve.kpa);
  const longerS = runCorrectionS(trace, inputs, {
    ...(run.startStepS !== undefined && { startStepS: run.startStepS }),
    ...(inputs.stop && { stopStepS: inputs.stop.stepS, stopAirVolume: inputs.stop.airVolume }),
    airVolumeNoise: (inputs.noiseKpa * run.lastAirVolume) / (run.lastKpa + inputs.atmosphereKpa),
    rate,
  });
  return longerS * rate;
}

function runLiters(
  run: RunWaterState,
  ranS: number,
  gained: number,
  fill: Fill | undefined,
  inputs: RunInputs,
  airKpaL: number,
): RunWater {
  const tankGainL = gained * airKpaL;
  // While few fills are known, one run says as much of itself as they do; and a draw only ever
  // hides delivery.
  const runLiftedL =
    run.learned && inputs.delivery.established ? 0 : runRateLPerS(fill, inputs, airKpaL) * ranS;
  const lifted = run.learned ? Math.max(run.lifted * airKpaL, runLiftedL || 0) : runLiftedL;
  const deliveredL = Math.max(0, lifted);
  if (!Number.isFinite(deliveredL)) return { tankGainL };
  return {
    deliveredL,
    tankGainL,
    // The same ends as the rest before and after, so that the day's sum holds.
    drawnL: deliveredL - (run.startAirVolume - run.lastAirVolume) * airKpaL,
  };
}

/**
 * L/s of a run before anything is learnt: its better half, since a draw only slows a fill. Held to
 * what the card's rating makes likely; a fill slower than that is rather a draw than a weak pump.
 */
function runRateLPerS(fill: Fill | undefined, inputs: RunInputs, airKpaL: number): number {
  const rated = inputs.ratedLPerS;
  if (!fill) return rated ?? Number.NaN;
  const tilt = DEFAULT_FALL_PER_KPA * (fill.lateKpa - fill.kpa);
  const runRate = Math.max(fill.rate, fill.halves[0] * (1 - tilt), fill.halves[1] * (1 + tilt)) * airKpaL;
  return rated === undefined
    ? runRate
    : Math.min(rated * MAX_RATED_RATIO, Math.max(rated * MIN_RATED_RATIO, runRate));
}
