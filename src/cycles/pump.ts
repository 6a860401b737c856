/**
 * One pump of one well: readings of its current (and of the well's pressure) in, starts and whole cycles out. It knows neither
 * what the water does nor what is normal; it says when the pump ran and with what numbers.
 */
import { brokeAt, brokeAtEnd } from './broke.ts';
import type { Cycle } from './cycle.ts';
import { edgeHeld, edgeReading, newEdges, type Edges } from './edges.ts';
import { levelsRest, levelsRun, newLevels, type Levels } from './levels.ts';
import { goodForMs, isCoarse, newPace, paceReading, type Pace } from './pace.ts';
import { flagRun, newRun, runAmps, runHeld, runHeldUntil, runReading, type Run } from './run.ts';
import { finishShape, shapeReading } from './shape.ts';
import { LONG_START_MS, longStartOf, noteHeavy } from './long-start.ts';
import { inrushS, newStart, startReading, type StartTrack } from './start.ts';
import {
  firstOver,
  kpaBefore,
  medianOfThree,
  readCutIn,
  readCutOut,
  type Sampling,
  type Trail,
} from './trail.ts';

export interface PumpState {
  index: number;
  maxAmps?: number | undefined;
  pace: Pace;
  levels: Levels;
  edges: Edges;
  /** Last value of each line, A; -1 where it never spoke. */
  lines: number[];
  lineMs: number[];
  /** Readings since a start that is not believed yet; in a run, those of a line that showed rest while the others were not yet read. */
  waiting: [number, number, number][];
  run?: Run | undefined;
  /** Where pressure stood as the last run began, kPa. */
  callsKpa?: number | undefined;
  /** When the last run stopped; undefined before the first rest and across a gap. */
  restFromMs?: number | undefined;
  /** A start's record that came before its run was believed. */
  startRecord?: StartTrack | undefined;
  /** The reading that ended a hole in the data while the pump rested: a run that begins with it may be older. */
  holeEndMs?: number;
  /** Single odd readings that changed nothing. */
  spikes: number;
}

/** What the pump sees of the well's pressure. */
export interface PressureView {
  trail: Trail;
  pace: Pace;
}

export type PumpStep = { is: 'none' } | { is: 'started'; startedMs: number } | { is: 'cycle'; cycle: Cycle };
const NOTHING: PumpStep = { is: 'none' };

/** Rise over cut-in that shows water moving (contract, section 6). */
const RISEN_KPA = 7;
/** Without any current reading for this long a run is closed, and what comes after is another one. */
const LONGEST_HOLE_MS = 120_000;
const FAST_PERIOD_MS = 100;
/** The contract's longest record of a start, and its slowest sampling. */
const START_RECORD_MS = 5000;
const SLOWEST_PERIOD_MS = 10_000;
/** A peak under this many times the running current is no start: the record came too late, or a drive started the motor softly. */
const PEAK_OVER_RUNNING = 2;
/** A motor that does not turn draws several times its running current, until something trips: the slowest overloads take 30 s (class 30). */
const LOCKED_SHARE = 2.2;
/** One that raised pressure did turn, unless another pump raised it: the median of a run of seconds is mostly its inrush. */
const LOCKED_SHARE_RAISING = 3;
const LOCKED_LONGEST_MS = 45_000;
/** 2 psi: what a switch and the readings beside a start scatter. */
const CALLED_OVER_KPA = 14;
/** A single reading at coarse sampling is a short run where it reads like one. */
const LIKE_RUNNING = [0.5, 1.6] as const;

/** `driven`: a drive sets its speed (control `variable-speed`). */
export function newPump(index: number, maxAmps: number | undefined, driven = false): PumpState {
  return {
    index,
    maxAmps,
    pace: newPace(),
    levels: newLevels(maxAmps, driven),
    edges: newEdges(),
    lines: [],
    lineMs: [],
    waiting: [],
    // Named from the start and never deleted: an object that keeps its shape is read several times as fast.
    run: undefined,
    callsKpa: undefined,
    restFromMs: undefined,
    spikes: 0,
  };
}

export function isRunning(pump: PumpState): boolean {
  return pump.run !== undefined;
}

function samplingOf(pace: Pace): Sampling {
  if (pace.byException) return 'by-exception';
  return isCoarse(pace) ? 'coarse' : 'fine';
}

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

/** Readings 0.1 s apart or closer show the inrush. */
function isFast(pace: Pace): boolean {
  return pace.periodMs > 0 && pace.periodMs <= FAST_PERIOD_MS;
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

/** One reading of a start's record at 50 Hz or more, A. It comes before its run is believed, or while the run goes on. */
export function pumpStartRecord(pump: PumpState, tMs: number, amps: number): void {
  if (pump.run && pump.edges.phase === 'run') {
    pumpFast(pump, tMs, amps);
    return;
  }
  const held = pump.startRecord;
  if (held && tMs - held.lastMs <= START_RECORD_MS) startReading(held, tMs, amps, pump.levels.on);
  else pump.startRecord = newStart(tMs, amps);
}

/** A record is of this start where it ended no longer before than the slowest sampling takes to see it. */
function takeStartRecord(pump: PumpState, run: Run): void {
  const held = pump.startRecord;
  pump.startRecord = undefined;
  if (held && run.startedMs - held.lastMs <= START_RECORD_MS + SLOWEST_PERIOD_MS) run.start = held;
}

/** Readings 0.1 s apart or closer, A: the highest of the whole run counts, the length of the inrush by its first seconds. */
function pumpFast(pump: PumpState, tMs: number, amps: number): void {
  const { run } = pump;
  if (!run) return;
  if (!run.start) run.start = newStart(tMs, amps);
  else if (tMs - run.start.fromMs <= START_RECORD_MS) startReading(run.start, tMs, amps, pump.levels.on);
  else if (amps > run.start.amps) run.start.amps = amps;
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

function cycleOf(pump: PumpState, run: Run, stoppedMs: number, pressure: PressureView): Cycle {
  const { startedMs } = run;
  const cycle: Cycle = {
    pump: pump.index,
    startedMs,
    stoppedMs,
    ranS: (stoppedMs - startedMs) / 1000,
    readings: run.readings,
    flags: run.flags,
  };
  if (run.startSeen && pump.restFromMs !== undefined) cycle.restedS = (startedMs - pump.restFromMs) / 1000;
  const [amps, amps2, amps3] = [runAmps(run, 0), runAmps(run, 1), runAmps(run, 2)];
  if (amps !== undefined) cycle.amps = amps;
  if (amps2 !== undefined) cycle.amps2 = amps2;
  if (amps3 !== undefined) cycle.amps3 = amps3;
  noteStart(cycle, run.start);
  const longStart = longStartOf(run, cycle);
  if (longStart) cycle.longStart = longStart;
  if (run.voltsN > 0) cycle.volts = round2(run.voltsSum / run.voltsN);
  if (run.cutInKpa !== undefined) cycle.cutInKpa = round2(run.cutInKpa);
  const stopSeen = !run.flags.includes('gap') || stoppedMs === pump.edges.candidateMs;
  const cutOutKpa = stopSeen
    ? readCutOut(pressure.trail, startedMs, stoppedMs, samplingOf(pressure.pace))
    : undefined;
  if (cutOutKpa !== undefined) cycle.cutOutKpa = round2(cutOutKpa);
  if (run.risenMs !== undefined && run.risenMs <= stoppedMs)
    cycle.riseDelayS = (run.risenMs - startedMs) / 1000;
  if (isLocked(pump, cycle)) flagRun(run, 'failed-start');
  cycle.shape = finishShape(run.shape, {
    periodS: pump.pace.periodMs / 1000,
    holds: pump.pace.byException,
    ranS: cycle.ranS,
  });
  // A drive lowers its current as less is drawn.
  const periodS = pump.pace.periodMs / 1000;
  const { amps: ran = 0, ranS, readings } = cycle;
  const broke = pump.levels.driven
    ? undefined
    : (brokeAt(cycle.shape, ranS) ?? brokeAtEnd(run.ends, { amps: ran, ranS, periodS, readings }));
  if (broke) cycle.broke = { atS: broke.atS, share: round2(broke.share) };
  return cycle;
}

function noteStart(cycle: Cycle, start: StartTrack | undefined): void {
  if (!start) return;
  cycle.startAmps = start.amps;
  if (cycle.amps !== undefined && start.amps > PEAK_OVER_RUNNING * cycle.amps)
    cycle.startS = round2(inrushS(start));
}

/** So much over its running current that the motor did not turn. */
function isHeavy(pump: PumpState, amps: number, share = LOCKED_SHARE): boolean {
  // A drive starts softly and runs at any speed: only the motor's maximum is a measure.
  const usual = pump.levels.driven ? pump.maxAmps : (pump.levels.running ?? pump.maxAmps);
  return usual !== undefined && amps > share * usual;
}

function isLocked(pump: PumpState, { amps, ranS, riseDelayS }: Cycle): boolean {
  const share = riseDelayS === undefined ? LOCKED_SHARE : LOCKED_SHARE_RAISING;
  return amps !== undefined && isHeavy(pump, amps, share) && ranS * 1000 <= LOCKED_LONGEST_MS;
}

/** Pressure stands where the last run began, or lower: the switch calls for water. */
function isCalled(pump: PumpState, tMs: number, pressure: PressureView): boolean {
  const kpa = kpaBefore(pressure.trail, tMs);
  return kpa !== undefined && pump.callsKpa !== undefined && kpa < pump.callsKpa + CALLED_OVER_KPA;
}

function round2(value: number): number {
  return Math.round(value * 100) / 100;
}
