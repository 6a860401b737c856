/**
 * The water of one well, reading by reading: used, delivered, leaked, and what the tank's air does.
 * Pressure and the times of the runs are all that goes in. Water drawn at rest is what the tank
 * loses; water delivered in a run is the learnt delivery of the pump over the run's pressures,
 * whatever was drawn meanwhile. Without a tank on the card rates are still compared, but no litres
 * are said.
 */
import { airVolumeOf, advanceAir, newAirState } from './air.ts';
import { resetRest, recordRestQuality, recordRunQuality, newDayQuality } from './day-quality.ts';
import { newDeliveryEstimate } from './delivery.ts';
import {
  clearBuffer,
  bufferReading,
  isOldestDue,
  releaseOldest,
  oldestBufferedKpa,
  oldestBufferedMs,
} from './delay-buffer.ts';
import { finishTrace, traceRestReading } from './learn-run.ts';
import { rateAt, type DeliveryCurve } from './delivery-curve.ts';
import { discardBlock, closeBlock, addQuietReading } from './quiet-blocks.ts';
import {
  closeRunWater,
  newRunWaterState,
  addRunReading,
  type RunWaterState,
  type RunWater,
} from './run-volume.ts';
import { currentAirKpaL } from './tank-air.ts';
import { traceRun } from './trace.ts';
import { noiseKpa, leakAirKpaL, type WaterState } from './water-state.ts';
import { waterView, type WaterView } from './water-view.ts';

/** A reading this long after the one before leaves a hole: a value by exception holds 90 s. */
const MAX_GAP_MS = 180_000;
/** Steps that differ by less than this share are even. */
const STEADY_TOLERANCE = 0.1;
/**
 * Quiet begins so many time constants after a fill, once they are learnt; before that, after 20
 * min.
 */
const COOLED_TIME_CONSTANTS = 5;
const MIN_COOLED_S = 90;
const DEFAULT_COOLED_S = 1200;

/** A good pressure reading, kPa gauge, in order of time. */
export function handleWaterReading(state: WaterState, tMs: number, kpa: number): void {
  bufferReading(state.delayBuffer, tMs, kpa);
  while (isOldestDue(state.delayBuffer, tMs)) processOldest(state);
}

/** A run is sure: it began at `startedMs`, perhaps a few readings ago. */
export function handleWaterRunStarted(state: WaterState, startedMs: number, pump = 0): void {
  processUntil(state, startedMs - 1);
  state.runningPumps.push(pump);
  if (state.run) {
    state.multiplePumps = true;
    return;
  }
  closeBlock(state.quietBlocks);
  resetRest((state.dayQuality ??= newDayQuality()));
  finishTrace(state);
  selectPump(state, pump);
  state.multiplePumps = false;
  state.run = newRunWaterState(
    startedMs,
    state.lastMs >= 0 ? { kpa: state.lastKpa, airVolume: state.lastAirVolume } : undefined,
  );
  const stepMs = startedMs - state.lastMs;
  if (isSteady(state, stepMs)) state.run.startStepS = stepMs / 1000;
  if (state.trace) state.trace.startS = (startedMs - state.trace.originMs) / 1000;
}

/**
 * The run is over since `stoppedMs`. `amps`: its running current, as a witness. Litres only with a
 * tank on the card.
 */
export function handleWaterRunStopped(
  state: WaterState,
  stoppedMs: number,
  options: { amps?: number } = {},
): RunWater {
  processUntil(state, stoppedMs - 1);
  const { run, trace } = state;
  state.run = null;
  state.runningPumps = [];
  state.restSinceMs = stoppedMs;
  if (!run) return {};
  if (trace) {
    trace.stopS = (stoppedMs - trace.originMs) / 1000;
    trace.lowKpa = run.lowKpa;
    if (state.multiplePumps) trace.multiplePumps = true;
    if (options.amps !== undefined) trace.amps = options.amps;
  }
  const stop = readingAfterStop(state, stoppedMs);
  const water = closeRunWater(run, stoppedMs, { ...runInputsOf(state), trace, ...(stop && { stop }) });
  state.usedL += water.drawnL ?? 0;
  recordRunQuality(
    (state.dayQuality ??= newDayQuality()),
    (stoppedMs - run.startedMs) / 1000,
    water.drawnL !== undefined,
  );
  return water;
}

/** One of two pumps stops, and the other runs on. */
export function handleWaterPumpStopped(state: WaterState, stoppedMs: number, pump: number): void {
  processUntil(state, stoppedMs - 1);
  state.runningPumps = state.runningPumps.filter((one) => one !== pump);
}

/** Each pump on one tank has its own delivery. */
function selectPump(state: WaterState, pump: number): void {
  if (pump === state.deliveryPump) return;
  state.otherDeliveries[state.deliveryPump] = state.delivery;
  state.delivery = state.otherDeliveries[pump] ?? newDeliveryEstimate();
  delete state.otherDeliveries[pump];
  state.deliveryPump = pump;
  state.currentAirKpaL = currentAirKpaL(state);
}

/** What the pumps at work deliver together; undefined where one of them is not known yet. */
function currentCurve(state: WaterState): DeliveryCurve | undefined {
  const { curve } = state.delivery;
  if (state.runningPumps.length < 2) return curve;
  const levels = state.runningPumps.map((pump) =>
    pump === state.deliveryPump ? curve : state.otherDeliveries[pump]?.curve,
  );
  const first = levels[0];
  if (!first || levels.some((one) => one === undefined)) return undefined;
  return {
    ...first,
    rate: levels.reduce((sum, one) => sum + rateAt(one!, first.kpa), 0),
    maxKpa: Math.min(...levels.map((one) => one!.maxKpa)),
  };
}

/** Whether readings come evenly, so that a start or stop lies within one step. */
function isSteady(state: WaterState, stepMs: number): boolean {
  return state.lastMs >= 0 && stepMs > 0 && Math.abs(stepMs / state.stepMs - 1) < STEADY_TOLERANCE;
}

/** The first reading after the run, still held, as room of the air. */
function readingAfterStop(
  state: WaterState,
  stoppedMs: number,
): { stepS: number; airVolume: number } | undefined {
  const atMs = oldestBufferedMs(state.delayBuffer);
  const stepMs = atMs - state.lastMs;
  if (!state.air || atMs - stoppedMs > 100 || !isSteady(state, stepMs)) return undefined;
  const air = { ...state.air };
  const absolute = Math.max(1, oldestBufferedKpa(state.delayBuffer) + state.atmosphereKpa);
  advanceAir(air, atMs, absolute, state);
  return { stepS: stepMs / 1000, airVolume: airVolumeOf(air, absolute) };
}

/** Readings were lost from here on: what was going on can't be followed across. */
export function handleWaterGap(state: WaterState, tMs: number): void {
  processUntil(state, tMs);
  clearBuffer(state.delayBuffer);
  resetAfterGap(state);
}

function resetAfterGap(state: WaterState): void {
  discardBlock(state.quietBlocks);
  finishTrace(state);
  state.trace = null;
  state.air = null;
  state.lastMs = -1;
  if (state.run) state.run.hasGap = true;
}

/** At each whole minute: held readings become due even where no new ones come. */
export function handleWaterMinute(state: WaterState, atMs: number): WaterView {
  while (isOldestDue(state.delayBuffer, atMs)) processOldest(state);
  return waterView(state, atMs);
}

function runInputsOf(state: WaterState) {
  return {
    atmosphereKpa: state.atmosphereKpa,
    coolingS: state.coolingS,
    warmRatio: state.warmRatio,
    delivery: state.delivery,
    knee: state.knee,
    tank: state.tank,
    noiseKpa: noiseKpa(state),
    ...(state.card.ratedLPerS !== undefined && { ratedLPerS: state.card.ratedLPerS }),
  };
}

function processUntil(state: WaterState, untilMs: number): void {
  while (oldestBufferedMs(state.delayBuffer) <= untilMs) processOldest(state);
}

function processOldest(state: WaterState): void {
  const atMs = oldestBufferedMs(state.delayBuffer);
  const kpa = oldestBufferedKpa(state.delayBuffer);
  releaseOldest(state.delayBuffer);
  if (state.lastMs >= 0 && atMs - state.lastMs > MAX_GAP_MS) resetAfterGap(state);
  const absolute = Math.max(1, kpa + state.atmosphereKpa);
  if (state.air) advanceAir(state.air, atMs, absolute, state);
  else {
    state.air = newAirState(atMs, absolute);
    if (state.dayQuality) resetRest(state.dayQuality);
    // What went before is not known: perhaps a fill just ended.
    if (!state.run) state.restSinceMs = atMs;
  }
  const airVolume = airVolumeOf(state.air, absolute);
  if (state.lastMs >= 0) state.stepMs = atMs - state.lastMs;
  if (state.lastMs >= 0) state.coveredS += (atMs - state.lastMs) / 1000;
  if (state.run) processRunReading(state, state.run, atMs, kpa, airVolume);
  else processRestReading(state, atMs, kpa, airVolume);
  state.lastMs = atMs;
  state.lastKpa = kpa;
  state.lastAirVolume = airVolume;
}

function processRunReading(
  state: WaterState,
  run: RunWaterState,
  atMs: number,
  kpa: number,
  airVolume: number,
): void {
  addRunReading(run, { atMs, kpa, airVolume, curve: currentCurve(state) });
  if (state.trace) traceRun(state.trace, atMs, kpa);
}

function processRestReading(state: WaterState, atMs: number, kpa: number, airVolume: number): void {
  if (state.lastMs >= 0) {
    recordRestQuality((state.dayQuality ??= newDayQuality()), {
      stepMs: atMs - state.lastMs,
      airVolume,
      lastAirVolume: state.lastAirVolume,
      noiseRatio: noiseKpa(state) / Math.max(1, kpa + state.atmosphereKpa),
      airKpaL: state.currentAirKpaL,
    });
    state.usedL += (airVolume - state.lastAirVolume) * state.currentAirKpaL;
    state.meanStepKpa += (Math.min(5, Math.abs(kpa - state.lastKpa)) - state.meanStepKpa) * 0.002;
  }
  traceRestReading(state, atMs, kpa);
  const cooledS = state.coolingLearned
    ? Math.max(MIN_COOLED_S, COOLED_TIME_CONSTANTS * state.coolingS)
    : DEFAULT_COOLED_S;
  if (atMs - state.restSinceMs > cooledS * 1000) {
    addQuietReading(state.quietBlocks, atMs, airVolume, leakAirKpaL(state));
  }
}
