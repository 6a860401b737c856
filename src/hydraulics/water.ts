/**
 * The water of one well, reading by reading: used, delivered, leaked, and what the tank's air does. Pressure and the times of the
 * runs are all that goes in. Water drawn at rest is what the tank loses; water delivered in a run is the learnt delivery of the pump
 * over the run's pressures, whatever was drawn meanwhile. Without a tank on the card rates are still compared, but no litres are said.
 */
import { airRoom, airStep, restedAir } from './air.ts';
import { breakRest, doubtRest, doubtRun, newDoubt } from './day-doubt.ts';
import { newDelivery } from './delivery.ts';
import { clearHeld, hold, isDue, letGo, oldestHeldKpa, oldestHeldMs } from './held.ts';
import { finishTrace, noteTrace } from './learn-run.ts';
import { rateAt, type Level } from './level.ts';
import { breakQuiet, endBlock, quietReading } from './quiet.ts';
import { closeRun, openRun, runReading, type OpenRun, type RunWater } from './run.ts';
import { airNowKpaL } from './tank-air.ts';
import { traceRun } from './trace.ts';
import { noiseKpa, quietAirKpaL, type WaterState } from './water-state.ts';
import { waterView, type WaterView } from './water-view.ts';

/** A reading this long after the one before leaves a hole: a value by exception holds 90 s. */
const HOLE_MS = 180_000;
/** Steps that differ by less than this share are even. */
const STEADY = 0.1;
/** Quiet begins so many time constants after a fill, once they are learnt; before that, after 20 min. */
const COOLED_TIMES = 5;
const COOLED_AT_LEAST_S = 90;
const COOLED_UNLEARNT_S = 1200;

/** A good pressure reading, kPa gauge, in order of time. */
export function waterReading(state: WaterState, tMs: number, kpa: number): void {
  hold(state.held, tMs, kpa);
  while (isDue(state.held, tMs)) bookOldest(state);
}

/** A run is sure: it began at `startedMs`, perhaps a few readings ago. */
export function waterRunStarted(state: WaterState, startedMs: number, pump = 0): void {
  bookUntil(state, startedMs - 1);
  state.running.push(pump);
  if (state.run) {
    state.mixed = true;
    return;
  }
  endBlock(state.quiet);
  breakRest((state.doubt ??= newDoubt()));
  finishTrace(state);
  takePump(state, pump);
  state.mixed = false;
  state.run = openRun(
    startedMs,
    state.lastMs >= 0 ? { kpa: state.lastKpa, room: state.lastRoom } : undefined,
  );
  const stepMs = startedMs - state.lastMs;
  if (isSteady(state, stepMs)) state.run.startStepS = stepMs / 1000;
  if (state.trace) state.trace.startS = (startedMs - state.trace.originMs) / 1000;
}

/** The run is over since `stoppedMs`. `amps`: its running current, as a witness. Litres only with a tank on the card. */
export function waterRunStopped(
  state: WaterState,
  stoppedMs: number,
  options: { amps?: number } = {},
): RunWater {
  bookUntil(state, stoppedMs - 1);
  const { run, trace } = state;
  state.run = null;
  state.running = [];
  state.restSinceMs = stoppedMs;
  if (!run) return {};
  if (trace) {
    trace.stopS = (stoppedMs - trace.originMs) / 1000;
    trace.lowKpa = run.lowKpa;
    if (state.mixed) trace.mixed = true;
    if (options.amps !== undefined) trace.amps = options.amps;
  }
  const stop = stopReading(state, stoppedMs);
  const water = closeRun(run, stoppedMs, { ...readsOf(state), trace, ...(stop && { stop }) });
  state.usedL += water.drawnL ?? 0;
  doubtRun((state.doubt ??= newDoubt()), (stoppedMs - run.startedMs) / 1000, water.drawnL !== undefined);
  return water;
}

/** One of two pumps stops, and the other runs on. */
export function waterPumpLeft(state: WaterState, stoppedMs: number, pump: number): void {
  bookUntil(state, stoppedMs - 1);
  state.running = state.running.filter((one) => one !== pump);
}

/** Each pump on one tank has its own delivery. */
function takePump(state: WaterState, pump: number): void {
  if (pump === state.pump) return;
  state.others[state.pump] = state.delivery;
  state.delivery = state.others[pump] ?? newDelivery();
  delete state.others[pump];
  state.pump = pump;
  state.airNowKpaL = airNowKpaL(state);
}

/** What the pumps at work deliver together; undefined where one of them is not known yet. */
function levelNow(state: WaterState): Level | undefined {
  const { level } = state.delivery;
  if (state.running.length < 2) return level;
  const levels = state.running.map((pump) => (pump === state.pump ? level : state.others[pump]?.level));
  const first = levels[0];
  if (!first || levels.some((one) => one === undefined)) return undefined;
  return {
    ...first,
    rate: levels.reduce((sum, one) => sum + rateAt(one!, first.kpa), 0),
    upToKpa: Math.min(...levels.map((one) => one!.upToKpa)),
  };
}

/** Whether readings come evenly, so that a start or stop lies within one step. */
function isSteady(state: WaterState, stepMs: number): boolean {
  return state.lastMs >= 0 && stepMs > 0 && Math.abs(stepMs / state.stepMs - 1) < STEADY;
}

/** The first reading after the run, still held, as room of the air. */
function stopReading(state: WaterState, stoppedMs: number): { stepS: number; room: number } | undefined {
  const atMs = oldestHeldMs(state.held);
  const stepMs = atMs - state.lastMs;
  if (!state.air || atMs - stoppedMs > 100 || !isSteady(state, stepMs)) return undefined;
  const air = { ...state.air };
  const absolute = Math.max(1, oldestHeldKpa(state.held) + state.atmosphereKpa);
  airStep(air, atMs, absolute, state.coolingS);
  return { stepS: stepMs / 1000, room: airRoom(air, absolute) };
}

/** Readings were lost from here on: what was going on can't be followed across. */
export function waterGap(state: WaterState, tMs: number): void {
  bookUntil(state, tMs);
  clearHeld(state.held);
  breakOff(state);
}

function breakOff(state: WaterState): void {
  breakQuiet(state.quiet);
  finishTrace(state);
  state.trace = null;
  state.air = null;
  state.lastMs = -1;
  if (state.run) state.run.broken = true;
}

/** At each whole minute: held readings become due even where no new ones come. */
export function waterMinute(state: WaterState, atMs: number): WaterView {
  while (isDue(state.held, atMs)) bookOldest(state);
  return waterView(state, atMs);
}

function readsOf(state: WaterState) {
  return {
    atmosphereKpa: state.atmosphereKpa,
    coolingS: state.coolingS,
    delivery: state.delivery,
    knee: state.knee,
    tank: state.tank,
    noiseKpa: noiseKpa(state),
    ...(state.card.ratedLPerS !== undefined && { ratedLPerS: state.card.ratedLPerS }),
  };
}

function bookUntil(state: WaterState, untilMs: number): void {
  while (oldestHeldMs(state.held) <= untilMs) bookOldest(state);
}

function bookOldest(state: WaterState): void {
  const atMs = oldestHeldMs(state.held);
  const kpa = oldestHeldKpa(state.held);
  letGo(state.held);
  if (state.lastMs >= 0 && atMs - state.lastMs > HOLE_MS) breakOff(state);
  const absolute = Math.max(1, kpa + state.atmosphereKpa);
  if (state.air) airStep(state.air, atMs, absolute, state.coolingS);
  else {
    state.air = restedAir(atMs, absolute);
    if (state.doubt) breakRest(state.doubt);
    // What went before is not known: perhaps a fill just ended.
    if (!state.run) state.restSinceMs = atMs;
  }
  const room = airRoom(state.air, absolute);
  if (state.lastMs >= 0) state.stepMs = atMs - state.lastMs;
  if (state.lastMs >= 0) state.coveredS += (atMs - state.lastMs) / 1000;
  if (state.run) bookRun(state, state.run, atMs, kpa, room);
  else bookRest(state, atMs, kpa, room);
  state.lastMs = atMs;
  state.lastKpa = kpa;
  state.lastRoom = room;
}

function bookRun(state: WaterState, run: OpenRun, atMs: number, kpa: number, room: number): void {
  runReading(run, { atMs, kpa, room, level: levelNow(state) });
  if (state.trace) traceRun(state.trace, atMs, kpa);
}

function bookRest(state: WaterState, atMs: number, kpa: number, room: number): void {
  if (state.lastMs >= 0) {
    doubtRest((state.doubt ??= newDoubt()), {
      stepMs: atMs - state.lastMs,
      room,
      lastRoom: state.lastRoom,
      noiseShare: noiseKpa(state) / Math.max(1, kpa + state.atmosphereKpa),
      airKpaL: state.airNowKpaL,
    });
    state.usedL += (room - state.lastRoom) * state.airNowKpaL;
    state.stepKpa += (Math.min(5, Math.abs(kpa - state.lastKpa)) - state.stepKpa) * 0.002;
  }
  noteTrace(state, atMs, kpa);
  const cooledS = state.coolingLearnt
    ? Math.max(COOLED_AT_LEAST_S, COOLED_TIMES * state.coolingS)
    : COOLED_UNLEARNT_S;
  if (atMs - state.restSinceMs > cooledS * 1000) {
    quietReading(state.quiet, atMs, room, quietAirKpaL(state));
  }
}
