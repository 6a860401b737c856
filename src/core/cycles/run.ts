/**
 * One run while it goes on: what is counted of it so that its cycle can be said when it stops. Amps
 * are tallied apart for the first 2 s, the inrush, which count only where the run has nothing later
 * (contract, section 6).
 */
import type { CycleFlag } from '../../../shared/api/events.ts';
import { newShape, type ShapeSums } from './shape.ts';
import type { StartTrack } from './start.ts';
import { newTally, addToTally, tallyMedian, type Tally } from './weighted-median.ts';

export interface RunLeg {
  inrush: Tally;
  running: Tally;
  /** By exception: the reading whose holding time is not known yet. */
  heldFromMs: number;
  heldAmps: number;
  /**
   * The mean of a long span that may hold the stop: it counts once a later one shows it does not.
   */
  lastMean?: Mean | undefined;
  meanSeen?: boolean;
}

/** A mean over the span of `spanMs` that ends at `tMs`. */
export interface Mean {
  tMs: number;
  amps: number;
  spanMs: number;
}

export interface Run {
  startedMs: number;
  /** Its start was seen: a rest was seen before it. */
  startSeen: boolean;
  /**
   * Of means over long spans: the one before the first that shows the run was not all rest, so that
   * the run had begun before the first.
   */
  ranBefore?: boolean | undefined;
  readings: number;
  /** The last three readings of the first line, newest last, A. */
  lastReadings: [number, number, number];
  legs: RunLeg[];
  cutInKpa?: number | undefined;
  /** When pressure first stood 7 kPa over cut-in. */
  risenMs?: number | undefined;
  /** Highest median of three neighbouring readings so far. */
  highKpa?: number | undefined;
  /** The start as readings 0.1 s apart or closer show it. */
  start?: StartTrack | undefined;
  /**
   * Last reading of the first line that stood well over what the pump draws, soon after the start,
   * ms; how many stood so late, and their sum, A.
   */
  highCurrentMs: number;
  highCurrentN: number;
  highCurrentSum: number;
  /** Supply voltage while it ran: sum over readings and their number. */
  voltsSum: number;
  voltsN: number;
  flags: CycleFlag[];
  shape: ShapeSums;
}

const INRUSH_MS = 2000;

export function newRun(startedMs: number, startSeen: boolean): Run {
  return {
    startedMs,
    startSeen,
    readings: 0,
    lastReadings: [0, 0, 0],
    legs: [],
    // Named from the start, so that every run has one shape.
    cutInKpa: undefined,
    risenMs: undefined,
    highKpa: undefined,
    start: undefined,
    highCurrentMs: -1,
    highCurrentN: 0,
    highCurrentSum: 0,
    voltsSum: 0,
    voltsN: 0,
    flags: [],
    shape: newShape(),
  };
}

export function flagRun(run: Run, flag: CycleFlag): void {
  if (!run.flags.includes(flag)) run.flags.push(flag);
}

function runLeg(run: Run, leg: number): RunLeg {
  while (run.legs.length <= leg)
    run.legs.push({ inrush: newTally(), running: newTally(), heldFromMs: -1, heldAmps: 0 });
  return run.legs[leg]!;
}

function recordLast(run: Run, amps: number): void {
  run.readings++;
  run.lastReadings[0] = run.lastReadings[1];
  run.lastReadings[1] = run.lastReadings[2];
  run.lastReadings[2] = amps;
}

/** A running reading of one line, each counting the same. */
export function addRunReading(run: Run, leg: number, tMs: number, amps: number): void {
  const counted = runLeg(run, leg);
  addToTally(tMs - run.startedMs >= INRUSH_MS ? counted.running : counted.inrush, amps, 1);
  if (leg === 0) recordLast(run, amps);
}

/**
 * A running reading by exception: it counts for as long as it holds, which only the next one tells.
 */
export function addHeldReading(run: Run, leg: number, tMs: number, amps: number): void {
  closeHeldReading(run, leg, tMs);
  const counted = runLeg(run, leg);
  counted.heldFromMs = tMs;
  counted.heldAmps = amps;
  if (leg === 0) recordLast(run, amps);
}

/** The value that held does so no longer than `tMs`. */
export function closeHeldReading(run: Run, leg: number, tMs: number): void {
  const counted = run.legs[leg];
  if (!counted || counted.heldFromMs < 0) return;
  const inrushEndMs = run.startedMs + INRUSH_MS;
  const earlyMs = Math.min(tMs, inrushEndMs) - counted.heldFromMs;
  const lateMs = tMs - Math.max(counted.heldFromMs, inrushEndMs);
  if (earlyMs > 0) addToTally(counted.inrush, counted.heldAmps, earlyMs / 1000);
  if (lateMs > 0) addToTally(counted.running, counted.heldAmps, lateMs / 1000);
  counted.heldFromMs = -1;
}

/**
 * A running mean over a long span that ends at `tMs`. The first and the last of a run hold only
 * part of it, and amps come from spans that lie wholly within the run (contract, section 7): so a
 * mean counts when the next one shows that the pump still ran, and the first only where the one
 * before it (`ranBefore`) was not all rest. Returns the one that counts now.
 */
export function addMean(run: Run, leg: number, mean: Mean): Mean | undefined {
  const whole = confirmLastMean(run, leg);
  const counted = runLeg(run, leg);
  counted.lastMean = counted.meanSeen || run.ranBefore ? mean : undefined;
  counted.meanSeen = true;
  return whole;
}

/**
 * The pump ran on after the last mean, at least for a while: its span lies wholly within the run.
 */
export function confirmLastMean(run: Run, leg: number): Mean | undefined {
  const counted = run.legs[leg];
  const whole = counted?.lastMean;
  if (!counted || !whole) return undefined;
  counted.lastMean = undefined;
  addToTally(counted.running, whole.amps, whole.spanMs / 1000);
  if (leg === 0) recordLast(run, whole.amps);
  return whole;
}

/** Median amps of one line so far. */
export function runMedianAmps(run: Run, leg: number): number | undefined {
  const counted = run.legs[leg];
  return counted && (tallyMedian(counted.running) ?? tallyMedian(counted.inrush));
}
