/**
 * One pump of one well: readings of its current (and of the well's pressure) in, starts and whole cycles out. It knows neither
 * what the water does nor what is normal; it says when the pump ran and with what numbers.
 */
import type { Cycle } from './cycle.ts';
import { cycleOf, isHeavy } from './cycle-of.ts';
import { edgeHeld, edgeReading, newEdges } from './edges.ts';
import { levelsRest, levelsRun } from './levels.ts';
import { LONG_START_MS, noteHeavy } from './long-start.ts';
import { goodForMs, isCoarse, paceReading } from './pace.ts';
import { samplingOf, type PressureView, type PumpState } from './pump-state.ts';
import { flagRun, newRun, runHeld, runHeldUntil, runReading, type Run } from './run.ts';
import { shapeReading } from './shape.ts';
import { isFast, pumpFast, takeStartRecord } from './start-record.ts';
import { firstOver, kpaBefore, medianOfThree, readCutIn, type Trail } from './trail.ts';

export type PumpStep = { is: 'none' } | { is: 'started'; startedMs: number } | { is: 'cycle'; cycle: Cycle };
const NOTHING: PumpStep = { is: 'none' };

/** Rise over cut-in that shows water moving (contract, section 6). */
const RISEN_KPA = 7;
/** Without any current reading for this long a run is closed, and what comes after is another one. */
const LONGEST_HOLE_MS = 120_000;
/** 2 psi: what a switch and the readings beside a start scatter. */
const CALLED_OVER_KPA = 14;
/** A single reading at coarse sampling is a short run where it reads like one. */
const LIKE_RUNNING = [0.5, 1.6] as const;

/** The current that decides: the highest line, so that a lost leg does not hide a run. */
function deciding(pump: PumpState, tMs: number): number {
  if (pump.lines.length === 1) return pump.lines[0]!;
  const good = goodForMs(pump.pace);
  let most = -Infinity;
  for (let leg = 0; leg < pump.lines.length; leg++) {
    const amps = pump.lines[leg]!;
    if (tMs - pump.lineMs[leg]! <= good && amps > most) most = amps;
  }
  return most;
}

/** One reading of line `leg` (0 to 2) of this pump's current, A. */
export function pumpCurrent(
  pump: PumpState,
  tMs: number,
  leg: number,
  amps: number,
  pressure: PressureView,
): PumpStep {
  while (pump.lines.length <= leg) {
    pump.lines.push(0);
    pump.lineMs.push(-NEVER_MS);
  }
  pump.lines[leg] = amps;
  pump.lineMs[leg] = tMs;
  if (leg === 0) notePace(pump, tMs, amps);
  const decides = deciding(pump, tMs);
  const { edges, levels } = pump;
  const high = decides > (edges.phase === 'run' || edges.phase === 'maybe-rest' ? levels.off : levels.on);
  const was = edges.phase;
  const step = edgeReading(edges, tMs, high);
  switch (step) {
    case 'none':
      if (edges.phase === 'run') addReading(pump, leg, tMs, amps);
      else if (edges.phase === 'maybe-run') pump.waiting.push([tMs, leg, amps]);
      else if (edges.phase === 'rest' && leg === 0) levelsRest(levels, amps);
      else if (edges.phase === 'maybe-rest' && was === 'run') holdUntil(pump, tMs);
      return NOTHING;
    case 'started':
      return begin(pump, was !== 'unknown', [tMs, leg, amps], pressure);
    case 'stopped':
      return finish(pump, edges.candidateMs, pressure);
    case 'spike':
      return spike(pump);
    case 'blip':
      return blip(pump, tMs, pressure);
    case 'dropout':
      return dropout(pump, [tMs, leg, amps], pressure);
    default:
      return step satisfies never;
  }
}

/** Stands for 'never heard' in JSON, which has no infinity. */
const NEVER_MS = 8.64e15;

function notePace(pump: PumpState, tMs: number, amps: number): void {
  const step = paceReading(pump.pace, tMs);
  if (step > goodForMs(pump.pace)) passHole(pump, tMs);
  if (!pump.run) return;
  shapeReading(pump.run.shape, 'amps', tMs - pump.run.startedMs, amps);
  if (isFast(pump.pace)) pumpFast(pump, tMs, amps);
}

/** Nothing was heard for longer than a reading is good: what happened meanwhile is not known. */
function passHole(pump: PumpState, tMs: number): void {
  if (pump.run) flagRun(pump.run, 'gap');
  else if (pump.edges.phase === 'rest') {
    pump.restFromMs = undefined;
    pump.holeEndMs = tMs;
  }
}

/**
 * A running reading. Of several lines the first that shows rest may be the first of the stop itself: it counts once another line shows
 * later, or at the same time, that the pump still ran. Else the end of a run would look like current that fell away.
 */
function addReading(pump: PumpState, leg: number, tMs: number, amps: number): void {
  if (pump.lines.length > 1 && amps <= pump.levels.off) {
    pump.waiting.push([tMs, leg, amps]);
    return;
  }
  if (pump.waiting.length > 0) {
    for (const [thenMs, itsLeg, itsAmps] of pump.waiting) count(pump, itsLeg, thenMs, itsAmps);
    pump.waiting = [];
  }
  count(pump, leg, tMs, amps);
}

function count(pump: PumpState, leg: number, tMs: number, amps: number): void {
  const run = pump.run!;
  if (leg === 0 && tMs - run.startedMs <= LONG_START_MS) noteHeavy(run, tMs, amps, pump.levels.running);
  if (pump.pace.byException) runHeld(run, leg, tMs, amps);
  else runReading(run, leg, tMs, amps);
}

function holdUntil(pump: PumpState, tMs: number): void {
  for (let leg = 0; leg < pump.lines.length; leg++) runHeldUntil(pump.run!, leg, tMs);
}

function begin(
  pump: PumpState,
  startSeen: boolean,
  reading: [number, number, number],
  pressure: PressureView,
): PumpStep {
  const startedMs = pump.edges.candidateMs;
  const run = newRun(startedMs, startSeen);
  pump.run = run;
  if (!startSeen || startedMs === pump.holeEndMs) flagRun(run, 'gap');
  takeStartRecord(pump, run);
  if (startSeen) {
    const sampling = samplingOf(pressure.pace);
    const cutInKpa = readCutIn(pressure.trail, startedMs, pump.restFromMs ?? 0, sampling);
    if (cutInKpa !== undefined) {
      run.cutInKpa = cutInKpa;
      pump.callsKpa = cutInKpa;
      const risenMs = firstOver(pressure.trail, startedMs, cutInKpa + RISEN_KPA);
      if (risenMs !== undefined) run.risenMs = risenMs;
    }
    if (sampling === 'coarse') flagRun(run, 'coarse');
  }
  const first = [...pump.waiting, reading];
  pump.waiting = [];
  for (const [tMs, leg, amps] of first) {
    addReading(pump, leg, tMs, amps);
    if (leg !== 0) continue;
    shapeReading(run.shape, 'amps', tMs - startedMs, amps);
    if (isFast(pump.pace)) pumpFast(pump, tMs, amps);
  }
  return { is: 'started', startedMs };
}

function spike(pump: PumpState): PumpStep {
  pump.spikes++;
  pump.waiting = [];
  return NOTHING;
}

/**
 * One high reading, then a low one. At coarse sampling it is a short run where it reads like one. Of starting current, with pressure at
 * the cut-in or under it, it is a start that failed: those last a second or two. Else it is a spike.
 */
function blip(pump: PumpState, tMs: number, pressure: PressureView): PumpStep {
  const { running } = pump.levels;
  const amps = Math.max(...pump.waiting.map((w) => w[2]));
  const likeOne =
    running !== undefined && amps >= LIKE_RUNNING[0] * running && amps <= LIKE_RUNNING[1] * running;
  const isShortRun = isCoarse(pump.pace) && likeOne;
  if (!isShortRun && !(isHeavy(pump, amps) && isCalled(pump, tMs, pressure))) return spike(pump);
  const last = pump.waiting.pop()!;
  begin(pump, true, last, pressure);
  return finish(pump, tMs, pressure);
}

/** One low reading within a run: a dropout, unless sampling is coarse and pressure says that a new run began at cut-in. */
function dropout(pump: PumpState, reading: [number, number, number], pressure: PressureView): PumpStep {
  const [tMs, leg, amps] = reading;
  const run = pump.run!;
  const restFromMs = pump.edges.candidateMs;
  if (isCoarse(pump.pace) && !heldHigh(run, restFromMs, tMs, pressure)) {
    const step = finish(pump, restFromMs, pressure);
    pump.edges = { phase: 'maybe-run', candidateMs: tMs, agreedMs: tMs };
    pump.waiting = [[tMs, leg, amps]];
    return step;
  }
  if (isCoarse(pump.pace)) flagRun(run, 'merged');
  addReading(pump, leg, tMs, amps);
  return NOTHING;
}

/** Pressure at the restart stands well over the run's cut-in: no pressure switch starts a pump there. */
function heldHigh(run: Run, restFromMs: number, tMs: number, pressure: PressureView): boolean {
  const now = kpaBefore(pressure.trail, tMs);
  const then = kpaBefore(pressure.trail, restFromMs);
  if (now === undefined || then === undefined || run.cutInKpa === undefined) return false;
  return now > run.cutInKpa + 0.5 * Math.max(0, (run.highKpa ?? 0) - run.cutInKpa) && now >= then - RISEN_KPA;
}

/** Time went on to `tMs` without a reading of current: by exception a value holds, so a start or stop may now be believed. */
export function pumpHeld(pump: PumpState, tMs: number, pressure: PressureView): PumpStep {
  if (!pump.pace.byException) return NOTHING;
  const step = edgeHeld(pump.edges, tMs);
  if (step === 'stopped') return finish(pump, pump.edges.candidateMs, pressure);
  if (step !== 'started') return NOTHING;
  const last = pump.waiting.pop() ?? [pump.edges.candidateMs, 0, pump.lines[0] ?? 0];
  return begin(pump, true, last, pressure);
}

/** True while a start or stop waits to be believed: the only time `pumpHeld` has anything to do. */
export function pumpWaits(pump: PumpState): boolean {
  return pump.edges.phase === 'maybe-run' || pump.edges.phase === 'maybe-rest';
}

/** A whole minute passed: a run of which nothing was heard for too long is closed where it was last heard. */
export function pumpMinute(pump: PumpState, minuteMs: number, pressure: PressureView): PumpStep {
  const { lastMs } = pump.pace;
  if (lastMs < 0 || pump.edges.phase === 'unknown' || minuteMs - lastMs <= LONGEST_HOLE_MS) return NOTHING;
  if (pump.edges.phase === 'maybe-run') spike(pump);
  const { run } = pump;
  let step: PumpStep = NOTHING;
  if (run) {
    flagRun(run, 'gap');
    const heldMs = pump.pace.byException
      ? Math.min(goodForMs(pump.pace), minuteMs - lastMs)
      : pump.pace.periodMs;
    const stoppedMs = pump.edges.phase === 'maybe-rest' ? pump.edges.candidateMs : lastMs + heldMs;
    step = finish(pump, Math.max(stoppedMs, run.startedMs), pressure);
  }
  pump.restFromMs = undefined;
  pump.edges = newEdges();
  pump.lines = [];
  pump.lineMs = [];
  return step;
}

/** One reading of the well's pressure, kPa, already in the trail. */
export function pumpPressure(pump: PumpState, tMs: number, kpa: number, trail: Trail): void {
  const { run } = pump;
  if (!run) return;
  const n = trail.kpa.length;
  if (n >= 3) {
    const middle = medianOfThree(trail.kpa[n - 3]!, trail.kpa[n - 2]!, kpa);
    if (run.highKpa === undefined || middle > run.highKpa) run.highKpa = middle;
  }
  shapeReading(run.shape, 'kpa', tMs - run.startedMs, kpa);
  if (run.risenMs === undefined && run.cutInKpa !== undefined && kpa >= run.cutInKpa + RISEN_KPA)
    run.risenMs = tMs;
}

/** One reading of the supply's voltage while the pump runs, V. */
export function pumpVolts(pump: PumpState, volts: number): void {
  if (!pump.run) return;
  pump.run.voltsSum += volts;
  pump.run.voltsN++;
}

/** A reading was over the sensor's full scale: the run's numbers are cut short. */
export function flagClipped(pump: PumpState): void {
  if (pump.run) flagRun(pump.run, 'clipped');
}

function finish(pump: PumpState, stoppedMs: number, pressure: PressureView): PumpStep {
  const run = pump.run!;
  holdUntil(pump, stoppedMs);
  const cycle = cycleOf(pump, run, stoppedMs, pressure);
  pump.run = undefined;
  pump.restFromMs = stoppedMs;
  pump.waiting = [];
  if (cycle.amps !== undefined && teachesLevels(cycle)) levelsRun(pump.levels, cycle.amps);
  return { is: 'cycle', cycle };
}

function teachesLevels(cycle: Cycle): boolean {
  return cycle.readings >= 2 && !cycle.flags.includes('failed-start') && !cycle.flags.includes('gap');
}

/** Pressure stands where the last run began, or lower: the switch calls for water. */
function isCalled(pump: PumpState, tMs: number, pressure: PressureView): boolean {
  const kpa = kpaBefore(pressure.trail, tMs);
  return kpa !== undefined && pump.callsKpa !== undefined && kpa < pump.callsKpa + CALLED_OVER_KPA;
}
