/**
 * The water of one well, reading by reading: used, delivered, leaked, and what the tank's air does. Pressure and the times of the
 * runs are all that goes in. Water drawn at rest is what the tank loses; water delivered in a run is the learnt delivery of the pump
 * over the run's pressures, whatever was drawn meanwhile. Without a tank on the card rates are still compared, but no litres are said.
 */
import type { SwitchCard, TankCard } from '../card/card.ts';
import { USUAL_COOLING_S, airRoom, airStep, restedAir, type AirState } from './air.ts';
import { coolingFound, learnCooling, newCooling, type Cooling } from './cooling.ts';
import { ceaselessLoss, newCeaseless } from './ceaseless.ts';
import { forgetFills, learnDelivery, newDelivery, type Delivery } from './delivery.ts';
import { readFill } from './fill.ts';
import { clearHeld, hold, isDue, letGo, newHeld, oldestHeldKpa, oldestHeldMs, type Held } from './held.ts';
import { breakQuiet, endBlock, endQuietDay, newQuiet, quietReading, type Quiet } from './quiet.ts';
import { rateAt, type Level } from './level.ts';
import { noteKnee, type Knee } from './knee.ts';
import { closeRun, openRun, runReading, type OpenRun, type RunWater } from './run.ts';
import { airCharge, airNowKpaL, deliveryShare, type TankAir } from './tank-air.ts';
import { atmosphereKpa, prechargeKpa, tankOf, type Tank } from './tank.ts';
import { AFTER_S, newTrace, traceAfter, traceBefore, traceRun, type Trace } from './trace.ts';

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
  quiet: Quiet;
  /** Loss at rest of the last whole day, as L/h of the tank, or of some tank where none is known. */
  dayLossLPerH?: number;
}

/** A reading this long after the one before leaves a hole: a value by exception holds 90 s. */
const HOLE_MS = 180_000;
/** Mean step of readings is 1.13 sigma for normal noise. */
const STEP_TO_SIGMA = 0.886;
/** Steps that differ by less than this share are even. */
const STEADY = 0.1;
/** Cover of a day that its total may be told from. */
const COVER_NEEDED = 0.9;
/** Quiet begins so many time constants after a fill, once they are learnt; before that, after 20 min. */
const COOLED_TIMES = 5;
const COOLED_AT_LEAST_S = 90;
const COOLED_UNLEARNT_S = 1200;
/** Change (ln) of the time constant that makes the fills read before worthless: a quarter. */
const COOLING_CHANGED = 0.22;
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

/** A loss at rest. Litres only with a tank on the card; without one, in relation to the pressure and to the pump. */
export interface Loss {
  lPerH?: number;
  /** What it takes from the pressure in the middle of the band, kPa an hour. */
  fallKpaPerH: number;
  /** Of what the pump delivers; absent while that is not learnt. */
  share?: number;
}

/** What the watches see of the water. */
export interface WaterView {
  deliveryShare?: number;
  airKpa?: number;
  airNormalKpa?: number;
  /** Loss of the last whole day, where its quiet hours could be judged. */
  dayLoss?: Loss;
  /** Loss that has not ceased for so many hours. */
  ceaseless?: Loss & { hours: number };
}

/** At each whole minute: held readings become due even where no new ones come. */
export function waterMinute(state: WaterState, atMs: number): WaterView {
  while (isDue(state.held, atMs)) bookOldest(state);
  return waterView(state, atMs);
}

/** `atMs`: the moment it is asked at. */
export function waterView(state: WaterState, atMs: number): WaterView {
  // Asked each minute: fields are set one by one, which makes less than spreading them.
  const view: WaterView = {};
  const share = deliveryShare(state);
  if (share !== undefined) view.deliveryShare = share;
  const airKpa = tankAir(state)?.airKpa;
  if (airKpa !== undefined) view.airKpa = airKpa;
  if (state.tank) view.airNormalKpa = prechargeKpa(state.tank);
  if (state.dayLossLPerH !== undefined) view.dayLoss = lossOf(state, state.dayLossLPerH, {});
  const ceaseless = ceaselessLoss(state.quiet.ceaseless, Math.max(atMs, state.lastMs));
  if (ceaseless) view.ceaseless = lossOf(state, ceaseless.lPerH, { hours: ceaseless.hours });
  return view;
}

/** Fills `into` with the loss. */
function lossOf<T extends object>(state: WaterState, lPerH: number, into: T): T & Loss {
  const { level } = state.delivery;
  const rate = lPerH / 3600 / quietAirKpaL(state);
  const absolute = (level?.kpa ?? state.lastKpa) + state.atmosphereKpa;
  const loss: T & Partial<Loss> = into;
  if (state.tank) loss.lPerH = lPerH;
  loss.fallKpaPerH = rate * 3600 * absolute ** 2;
  if (level) loss.share = rate / level.rate;
  return loss as T & Loss;
}

function quietAirKpaL(state: WaterState): number {
  return state.airNowKpaL || SOME_AIR_KPA_L;
}

export interface DayWater {
  /** Water drawn in the day, leak included, L. */
  usedL?: number;
  leakLPerDay?: number;
  /** Standard error of the leak, L a day. */
  leakSpread?: number;
}

/** Ends the day. Without a tank on the card, or with a tenth of the day unheard, there is no total. */
export function waterDay(state: WaterState, dayStartMs: number, dayEndMs: number): DayWater {
  const covered = state.coveredS >= ((dayEndMs - dayStartMs) / 1000) * COVER_NEEDED;
  const leak = endQuietDay(state.quiet);
  const { usedL } = state;
  if (leak) state.dayLossLPerH = leak.leakLPerDay / 24;
  else delete state.dayLossLPerH;
  state.usedL = 0;
  state.coveredS = 0;
  if (!state.tank) return {};
  return { ...(covered && { usedL: Math.max(0, usedL) }), ...leak };
}

/** The tank's air charge as fills show it; undefined before enough fills. */
export function tankAir(state: WaterState): TankAir | undefined {
  return airCharge(state);
}

/** Noise of one reading, kPa. */
function noiseKpa(state: WaterState): number {
  return Math.max(0.2, state.stepKpa * STEP_TO_SIGMA);
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

function noteTrace(state: WaterState, atMs: number, kpa: number): void {
  const { trace } = state;
  const warmth = state.air?.warmth ?? 0;
  if (!trace) {
    state.trace = newTrace(atMs, warmth);
    traceBefore(state.trace, atMs, kpa, warmth);
  } else if (trace.stopS === undefined) traceBefore(trace, atMs, kpa, warmth);
  else if (atMs - trace.originMs - trace.stopS * 1000 < AFTER_S * 1000) traceAfter(trace, atMs, kpa);
  else {
    finishTrace(state);
    state.trace = newTrace(atMs, warmth);
  }
}

/** The trace is whole: everything is learnt from it, and the rest after it becomes the rest before the next run. */
function finishTrace(state: WaterState): void {
  const { trace } = state;
  if (!trace || trace.stopS === undefined) return;
  // A bin holds four readings or so.
  learnCooling(state.cooling, trace, { atmosphereKpa: state.atmosphereKpa, noiseKpa: noiseKpa(state) / 2 });
  const found = coolingFound(state.cooling);
  if (found !== undefined) {
    if (Math.abs(Math.log((found + 2) / (state.notesCoolingS + 2))) > COOLING_CHANGED) {
      forgetFills(state.delivery);
      state.notesCoolingS = found;
    }
    state.coolingS = found;
    state.coolingLearnt = true;
  }
  // What two pumps lifted together is of neither.
  const fill = trace.mixed ? undefined : readFill(trace, state);
  if (fill) learnDelivery(state.delivery, fill, trace.amps);
  noteKnee(state.knee, trace, { lowKpa: trace.lowKpa ?? 1e9, noiseKpa: noiseKpa(state) });
  state.airNowKpaL = airNowKpaL(state);
  state.trace = afterAsBefore(state, trace);
}

/** Where the next run follows at once, the rest between them is the rest before it. */
function afterAsBefore(state: WaterState, trace: Trace): Trace {
  const { after } = trace;
  const next = newTrace(trace.originMs, state.air?.warmth ?? 0);
  const from = Math.max(0, after.s.length - 8);
  next.before.s = after.s.slice(from);
  next.before.kpa = after.kpa.slice(from);
  next.before.sinceS = after.sinceS;
  next.before.n = after.n;
  return next;
}
