/**
 * One pump of one well: readings of its current (and of the well's pressure) in, starts and whole
 * cycles out. It knows neither what the water does nor what is normal; it says when the pump ran
 * and with what numbers.
 */
import type { Cycle } from './cycle.ts';
import { buildCycle, isLockedRotorCurrent } from './build-cycle.ts';
import { advanceEdges, updateEdges, newEdges } from './edges.ts';
import { NOISE_TIMES, learnIdle, learnRunning } from './levels.ts';
import { MAX_LONG_START_MS, recordHighCurrent } from './long-start.ts';
import { validForMs, isCoarse, recordReadingTime } from './pace.ts';
import { readsMeans, samplingOf, type PressureView, type PumpState } from './pump-state.ts';
import {
  addHeldReading,
  addMean,
  addRunReading,
  closeHeldReading,
  confirmLastMean,
  flagRun,
  newRun,
  type Mean,
  type Run,
} from './run.ts';
import { addToShape } from './shape.ts';
import { isFast, addFastReading, attachStartRecord } from './start-record.ts';
import {
  firstAtOrOver,
  kpaBefore,
  medianOfThree,
  readCutIn,
  readCutInOfSpans,
  type PressureBuffer,
} from './pressure-buffer.ts';

export type PumpStep = { is: 'none' } | { is: 'started'; startedMs: number } | { is: 'cycle'; cycle: Cycle };
const NO_STEP: PumpStep = { is: 'none' };

/** Rise over cut-in that shows water moving (contract, section 6). */
const RISEN_KPA = 7;
/**
 * Without any current reading for this long a run is closed, and what comes after is another one.
 */
const MAX_GAP_MS = 120_000;
/** 2 psi: what a switch and the readings beside a start scatter. */
const START_PRESSURE_TOLERANCE_KPA = 14;
/** A mean at rest with so much of the running current in it holds a part of a run. */
const MIN_PART_OF_RUN = 0.03;
/** A single reading at coarse sampling is a short run where it reads like one. */
const RUNNING_RATIO_RANGE = [0.5, 1.6] as const;

/** The current that decides: the highest line, so that a lost leg does not hide a run. */
function decidingAmps(pump: PumpState, tMs: number): number {
  if (pump.legAmps.length === 1) return pump.legAmps[0]!;
  const validMs = validForMs(pump.pace);
  let highest = -Infinity;
  for (let leg = 0; leg < pump.legAmps.length; leg++) {
    const amps = pump.legAmps[leg]!;
    if (tMs - pump.legMs[leg]! <= validMs && amps > highest) highest = amps;
  }
  return highest;
}

/** One reading of line `leg` (0 to 2) of this pump's current, A. */
export function handlePumpCurrent(
  pump: PumpState,
  tMs: number,
  leg: number,
  amps: number,
  pressure: PressureView,
): PumpStep {
  while (pump.legAmps.length <= leg) {
    pump.legAmps.push(0);
    pump.legMs.push(-NEVER_MS);
  }
  pump.legAmps[leg] = amps;
  pump.legMs[leg] = tMs;
  pump.wholeMeanAmps = undefined;
  if (leg === 0) trackPace(pump, tMs, amps);
  const decidingA = decidingAmps(pump, tMs);
  const { edges, levels } = pump;
  const high = decidingA > (edges.phase === 'run' || edges.phase === 'pending-rest' ? levels.off : levels.on);
  if (!high && leg === 0 && readsMeans(pump)) pump.restMeanAmps = amps;
  const previousPhase = edges.phase;
  const step = updateEdges(edges, tMs, high);
  switch (step) {
    case 'none':
      if (edges.phase === 'run') addRunningReading(pump, leg, tMs, amps);
      else if (edges.phase === 'pending-run') pump.pending.push([tMs, leg, amps]);
      else if (edges.phase === 'rest' && leg === 0) learnIdle(levels, amps);
      else if (edges.phase === 'pending-rest' && previousPhase === 'run') closeReadings(pump, tMs, leg, amps);
      return NO_STEP;
    case 'started':
      return beginRun(pump, previousPhase !== 'unknown', [tMs, leg, amps], pressure);
    case 'stopped':
      return finishRun(pump, edges.candidateMs, pressure);
    case 'spike':
      return discardSpike(pump);
    case 'blip':
      return resolveBlip(pump, tMs, pressure);
    case 'dropout':
      return resolveDropout(pump, [tMs, leg, amps], pressure);
    default:
      return step satisfies never;
  }
}

/** Stands for 'never heard' in JSON, which has no infinity. */
const NEVER_MS = 8.64e15;

function trackPace(pump: PumpState, tMs: number, amps: number): void {
  const step = recordReadingTime(pump.pace, tMs);
  if (step > validForMs(pump.pace)) handleGap(pump, tMs);
  if (!pump.run || readsMeans(pump)) return;
  addToShape(pump.run.shape, 'amps', tMs - pump.run.startedMs, amps);
  if (isFast(pump.pace)) addFastReading(pump, tMs, amps);
}

/** Nothing was heard for longer than a reading is good: what happened meanwhile is not known. */
function handleGap(pump: PumpState, tMs: number): void {
  if (pump.run) flagRun(pump.run, 'gap');
  else if (pump.edges.phase === 'rest') {
    pump.restFromMs = undefined;
    pump.gapEndMs = tMs;
  }
}

/**
 * A running reading. Of several lines the first that shows rest may be the first of the stop
 * itself: it counts once another line shows later, or at the same time, that the pump still ran.
 * Else the end of a run would look like current that fell away.
 */
function addRunningReading(pump: PumpState, leg: number, tMs: number, amps: number): void {
  if (pump.legAmps.length > 1 && amps <= pump.levels.off) {
    pump.pending.push([tMs, leg, amps]);
    return;
  }
  if (pump.pending.length > 0) {
    for (const [thenMs, itsLeg, itsAmps] of pump.pending) countReading(pump, itsLeg, thenMs, itsAmps);
    pump.pending = [];
  }
  countReading(pump, leg, tMs, amps);
}

function countReading(pump: PumpState, leg: number, tMs: number, amps: number): void {
  const run = pump.run!;
  if (readsMeans(pump)) {
    countWhole(pump, leg, addMean(run, leg, { tMs, amps, spanMs: pump.spanMs! }));
    return;
  }
  if (leg === 0 && tMs - run.startedMs <= MAX_LONG_START_MS)
    recordHighCurrent(run, tMs, amps, pump.levels.running);
  if (pump.pace.byException) addHeldReading(run, leg, tMs, amps);
  else addRunReading(run, leg, tMs, amps);
}

function countWhole(pump: PumpState, leg: number, whole: Mean | undefined): void {
  if (!whole) return;
  pump.wholeMeanAmps = whole.amps;
  if (leg === 0) addToShape(pump.run!.shape, 'amps', whole.tMs - pump.run!.startedMs, whole.amps);
}

/** The pump rests, as far as this reading says: what was read before it is at an end. */
function closeReadings(pump: PumpState, tMs: number, leg: number, amps: number): void {
  closeHeldReadings(pump, tMs);
  if (readsMeans(pump) && showsPartOfRun(pump, amps)) countWhole(pump, leg, confirmLastMean(pump.run!, leg));
}

/**
 * The mean before the first of the run holds a part of it; or of the run before, where that one
 * ended in the same span.
 */
function hadBegunBefore(pump: PumpState, startedMs: number): boolean {
  const { restMeanAmps, restFromMs, spanMs = 0 } = pump;
  if (restMeanAmps === undefined || !showsPartOfRun(pump, restMeanAmps)) return false;
  return restFromMs === undefined || startedMs - restFromMs > 1.5 * spanMs;
}

/**
 * A mean at rest that stands over the clamp's own noise and over 3 % of what the pump draws: it ran
 * for a part of that span (for 2 s of a minute at least).
 */
function showsPartOfRun({ levels }: PumpState, amps: number): boolean {
  const { idle, noise, running } = levels;
  return amps > idle + Math.max(NOISE_TIMES * noise, MIN_PART_OF_RUN * ((running ?? 0) - idle));
}

function closeHeldReadings(pump: PumpState, tMs: number): void {
  for (let leg = 0; leg < pump.legAmps.length; leg++) closeHeldReading(pump.run!, leg, tMs);
}

function beginRun(
  pump: PumpState,
  startSeen: boolean,
  reading: [number, number, number],
  pressure: PressureView,
): PumpStep {
  const startedMs = pump.edges.candidateMs;
  const run = newRun(startedMs, startSeen);
  pump.run = run;
  if (startSeen && readsMeans(pump)) run.ranBefore = hadBegunBefore(pump, startedMs);
  if (!startSeen || startedMs === pump.gapEndMs) flagRun(run, 'gap');
  attachStartRecord(pump, run);
  if (startSeen) {
    const sampling = samplingOf(pressure.pace);
    const cutInKpa = cutInOf(pump, startedMs, pressure);
    if (cutInKpa !== undefined) {
      run.cutInKpa = cutInKpa;
      pump.lastStartKpa = cutInKpa;
      const risenMs = firstAtOrOver(pressure.buffer, startedMs, cutInKpa + RISEN_KPA);
      if (risenMs !== undefined && !readsMeans(pump)) run.risenMs = risenMs;
    }
    if (sampling === 'coarse') flagRun(run, 'coarse');
  }
  const first = [...pump.pending, reading];
  pump.pending = [];
  for (const [tMs, leg, amps] of first) {
    addRunningReading(pump, leg, tMs, amps);
    if (leg !== 0 || readsMeans(pump)) continue;
    addToShape(run.shape, 'amps', tMs - startedMs, amps);
    if (isFast(pump.pace)) addFastReading(pump, tMs, amps);
  }
  return { is: 'started', startedMs };
}

function cutInOf(pump: PumpState, startedMs: number, { buffer, pace }: PressureView): number | undefined {
  const { restFromMs = 0, spanMs = 0 } = pump;
  if (readsMeans(pump)) return readCutInOfSpans(buffer, startedMs, restFromMs, spanMs);
  return readCutIn(buffer, startedMs, restFromMs, samplingOf(pace));
}

function discardSpike(pump: PumpState): PumpStep {
  pump.spikes++;
  pump.pending = [];
  return NO_STEP;
}

/**
 * One high reading, then a low one. At coarse sampling it is a short run where it reads like one.
 * Of starting current, with pressure at the cut-in or under it, it is a start that failed: those
 * last a second or two. Else it is a spike.
 */
function resolveBlip(pump: PumpState, tMs: number, pressure: PressureView): PumpStep {
  const { running } = pump.levels;
  const amps = Math.max(...pump.pending.map((w) => w[2]));
  const looksLikeRun =
    running !== undefined &&
    amps >= RUNNING_RATIO_RANGE[0] * running &&
    amps <= RUNNING_RATIO_RANGE[1] * running;
  const isShortRun = isCoarse(pump.pace) && looksLikeRun;
  if (!isShortRun && !(isLockedRotorCurrent(pump, amps) && isAtStartPressure(pump, tMs, pressure)))
    return discardSpike(pump);
  const last = pump.pending.pop()!;
  beginRun(pump, true, last, pressure);
  return finishRun(pump, tMs, pressure);
}

/**
 * One low reading within a run: a dropout, unless sampling is coarse and pressure says that a new
 * run began at cut-in.
 */
function resolveDropout(
  pump: PumpState,
  reading: [number, number, number],
  pressure: PressureView,
): PumpStep {
  const [tMs, leg, amps] = reading;
  const run = pump.run!;
  const restFromMs = pump.edges.candidateMs;
  if (isCoarse(pump.pace) && !pressureStayedHigh(run, restFromMs, tMs, pressure)) {
    const step = finishRun(pump, restFromMs, pressure);
    pump.edges = { phase: 'pending-run', candidateMs: tMs, agreedMs: tMs };
    pump.pending = [[tMs, leg, amps]];
    return step;
  }
  if (isCoarse(pump.pace)) flagRun(run, 'merged');
  addRunningReading(pump, leg, tMs, amps);
  return NO_STEP;
}

/**
 * Pressure at the restart stands well over the run's cut-in: no pressure switch starts a pump
 * there.
 */
function pressureStayedHigh(run: Run, restFromMs: number, tMs: number, pressure: PressureView): boolean {
  const now = kpaBefore(pressure.buffer, tMs);
  const then = kpaBefore(pressure.buffer, restFromMs);
  if (now === undefined || then === undefined || run.cutInKpa === undefined) return false;
  return now > run.cutInKpa + 0.5 * Math.max(0, (run.highKpa ?? 0) - run.cutInKpa) && now >= then - RISEN_KPA;
}

/**
 * Time went on to `tMs` without a reading of current: by exception a value holds, so a start or
 * stop may now be believed.
 */
export function advancePump(pump: PumpState, tMs: number, pressure: PressureView): PumpStep {
  if (!pump.pace.byException) return NO_STEP;
  const step = advanceEdges(pump.edges, tMs);
  if (step === 'stopped') return finishRun(pump, pump.edges.candidateMs, pressure);
  if (step !== 'started') return NO_STEP;
  const last = pump.pending.pop() ?? [pump.edges.candidateMs, 0, pump.legAmps[0] ?? 0];
  return beginRun(pump, true, last, pressure);
}

/**
 * True while a start or stop waits to be believed: the only time `advancePump` has anything to do.
 */
export function hasPendingEdge(pump: PumpState): boolean {
  return pump.edges.phase === 'pending-run' || pump.edges.phase === 'pending-rest';
}

/**
 * A whole minute passed: a run of which nothing was heard for too long is closed where it was last
 * heard.
 */
export function handlePumpMinute(pump: PumpState, minuteMs: number, pressure: PressureView): PumpStep {
  const { lastMs } = pump.pace;
  if (lastMs < 0 || pump.edges.phase === 'unknown' || minuteMs - lastMs <= MAX_GAP_MS) return NO_STEP;
  if (pump.edges.phase === 'pending-run') discardSpike(pump);
  const { run } = pump;
  let step: PumpStep = NO_STEP;
  if (run) {
    flagRun(run, 'gap');
    const heldMs = pump.pace.byException
      ? Math.min(validForMs(pump.pace), minuteMs - lastMs)
      : pump.pace.periodMs;
    const stoppedMs = pump.edges.phase === 'pending-rest' ? pump.edges.candidateMs : lastMs + heldMs;
    step = finishRun(pump, Math.max(stoppedMs, run.startedMs), pressure);
  }
  pump.restFromMs = undefined;
  pump.edges = newEdges();
  pump.legAmps = [];
  pump.legMs = [];
  return step;
}

/** One reading of the well's pressure, kPa, already in the trail. */
export function handlePumpPressure(pump: PumpState, tMs: number, kpa: number, buffer: PressureBuffer): void {
  const { run } = pump;
  if (!run) return;
  const n = buffer.kpa.length;
  if (n >= 3) {
    const middle = medianOfThree(buffer.kpa[n - 3]!, buffer.kpa[n - 2]!, kpa);
    if (run.highKpa === undefined || middle > run.highKpa) run.highKpa = middle;
  }
  addToShape(run.shape, 'kpa', tMs - run.startedMs, kpa);
  if (
    !readsMeans(pump) &&
    run.risenMs === undefined &&
    run.cutInKpa !== undefined &&
    kpa >= run.cutInKpa + RISEN_KPA
  )
    run.risenMs = tMs;
}

/** One reading of the supply's voltage while the pump runs, V. */
export function handlePumpVolts(pump: PumpState, volts: number): void {
  if (!pump.run) return;
  pump.run.voltsSum += volts;
  pump.run.voltsN++;
}

/** A reading was over the sensor's full scale: the run's numbers are cut short. */
export function flagClipped(pump: PumpState): void {
  if (pump.run) flagRun(pump.run, 'clipped');
}

function finishRun(pump: PumpState, stoppedMs: number, pressure: PressureView): PumpStep {
  const run = pump.run!;
  closeHeldReadings(pump, stoppedMs);
  const cycle = buildCycle(pump, run, stoppedMs, pressure);
  pump.run = undefined;
  pump.restFromMs = stoppedMs;
  pump.pending = [];
  if (cycle.amps !== undefined && isLearnable(pump, cycle)) learnRunning(pump.levels, cycle.amps);
  return { is: 'cycle', cycle };
}

function isLearnable(pump: PumpState, cycle: Cycle): boolean {
  // One spot reading may lie in the inrush; one mean over a whole span does not.
  const minReadings = readsMeans(pump) ? 1 : 2;
  return (
    cycle.readings >= minReadings && !cycle.flags.includes('failed-start') && !cycle.flags.includes('gap')
  );
}

/** Pressure stands where the last run began, or lower: the switch calls for water. */
function isAtStartPressure(pump: PumpState, tMs: number, pressure: PressureView): boolean {
  const kpa = kpaBefore(pressure.buffer, tMs);
  return (
    kpa !== undefined &&
    pump.lastStartKpa !== undefined &&
    kpa < pump.lastStartKpa + START_PRESSURE_TOLERANCE_KPA
  );
}
