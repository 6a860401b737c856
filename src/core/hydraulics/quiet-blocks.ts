/**
 * The leak: what is lost while nobody draws. What is quiet is found from the data. The rest of the
 * day is cut into blocks of six minutes, each with its rate of loss; people's draws scatter over
 * all rates, but a leak is the same at noon and at night, so it is the lowest rate at which blocks
 * crowd. (Minimum night flow without a clock.)
 */

import { HOUR_S } from '../../../shared/units/duration.ts';
import { newHourlyLows, recordBlock, type HourlyLows } from './continuous-loss.ts';

/**
 * Six minutes: a slope over less drowns in the noise of a reading, and over more there is seldom
 * quiet between two draws (argued, not measured).
 */
const BLOCK_S = 360;
/** A shorter block counts when the rest ends in it. */
const MIN_BLOCK_S = 150;
/** Minutes that must have been judged before anything is said (contract). */
const MIN_QUIET_MINUTES = 30;
/** Edges of the bins, L/h: even about zero, then in ratios of 1.2 up to 700. */
const BIN_EDGES_L_PER_H: readonly number[] = binEdges();
/**
 * Under this the day's temperature moves the air as much as a leak would: 10 K from noon to night
 * on a common tank.
 */
const MIN_LEAK_L_PER_H = 1.5;

export interface QuietBlocks {
  /** The block going on: sums of time (s) and room, for its slope. */
  sinceMs: number;
  n: number;
  s: number;
  ss: number;
  y: number;
  sy: number;
  lastS: number;
  firstAirVolume: number;
  /** Minutes and sum of (minutes x L/h) of the blocks in each bin, this day. */
  minutes: number[];
  sums: number[];
  /** Sum of squares of the blocks' slope errors, and their count. */
  errors: number;
  blocks: number;
  hourlyLows: HourlyLows;
}

export interface LeakEstimate {
  leakLPerDay: number;
}

export function newQuietBlocks(): QuietBlocks {
  return {
    ...emptyBlock(),
    minutes: BIN_EDGES_L_PER_H.map(() => 0),
    sums: BIN_EDGES_L_PER_H.map(() => 0),
    errors: 0,
    blocks: 0,
    hourlyLows: newHourlyLows(),
  };
}

function emptyBlock() {
  return { sinceMs: -1, n: 0, s: 0, ss: 0, y: 0, sy: 0, lastS: 0, firstAirVolume: 0 };
}

/** Starts no block and drops the one going on. */
export function discardBlock(quiet: QuietBlocks): void {
  Object.assign(quiet, emptyBlock());
}

/**
 * A reading at rest, clear of the last fill's cooling. `airKpaL` turns the room of the air (1/kPa)
 * into litres.
 */
export function addQuietReading(quiet: QuietBlocks, atMs: number, airVolume: number, airKpaL: number): void {
  if (quiet.sinceMs < 0) {
    quiet.sinceMs = atMs;
    quiet.firstAirVolume = airVolume;
  }
  const s = (atMs - quiet.sinceMs) / 1000;
  const y = (airVolume - quiet.firstAirVolume) * airKpaL;
  quiet.n++;
  quiet.s += s;
  quiet.ss += s * s;
  quiet.y += y;
  quiet.sy += s * y;
  quiet.lastS = s;
  if (s >= BLOCK_S) closeBlock(quiet);
}

/** Books the block where it is long enough. */
export function closeBlock(quiet: QuietBlocks): void {
  const { n, lastS } = quiet;
  if (lastS >= MIN_BLOCK_S && n >= 4) {
    const xx = quiet.ss - quiet.s ** 2 / n;
    const lPerH = ((quiet.sy - (quiet.s * quiet.y) / n) / xx) * HOUR_S;
    const bin = binOf(lPerH);
    quiet.minutes[bin] = roundToTenth(quiet.minutes[bin]! + lastS / 60);
    quiet.sums[bin] = roundToTenth(quiet.sums[bin]! + (lastS / 60) * Math.min(lPerH, 1e4));
    quiet.blocks++;
    recordBlock(quiet.hourlyLows, quiet.sinceMs + lastS * 1000, lPerH);
  }
  discardBlock(quiet);
}

/**
 * What the day's blocks say, or undefined where too few minutes were quiet to judge by. Starts a
 * new day.
 */
export function closeQuietDay(quiet: QuietBlocks): LeakEstimate | undefined {
  const { minutes, sums } = quiet;
  const leak = lowestCluster(minutes, sums);
  quiet.minutes = BIN_EDGES_L_PER_H.map(() => 0);
  quiet.sums = BIN_EDGES_L_PER_H.map(() => 0);
  quiet.blocks = 0;
  quiet.errors = 0;
  return leak;
}

/**
 * The lowest rate at which blocks crowd: windows of a fixed width near zero and of a quarter above
 * it.
 */
function lowestCluster(minutes: readonly number[], sums: readonly number[]): LeakEstimate | undefined {
  const windows = BIN_EDGES_L_PER_H.map((low, from) => {
    const high = low + Math.max(5, 0.3 * Math.abs(low));
    let held = 0;
    let sum = 0;
    for (let i = from; i < BIN_EDGES_L_PER_H.length && BIN_EDGES_L_PER_H[i]! < high; i++) {
      held += minutes[i]!;
      sum += sums[i]!;
    }
    return { held, sum };
  });
  const maxHeld = Math.max(...windows.map((w) => w.held));
  if (maxHeld < MIN_QUIET_MINUTES) return undefined;
  const first = windows.findIndex((w) => w.held >= Math.max(MIN_QUIET_MINUTES, maxHeld * 0.6));
  let best = first;
  while (best + 1 < windows.length && windows[best + 1]!.held > windows[best]!.held) best++;
  const { held, sum } = windows[best]!;
  const lPerH = sum / held;
  const spread = Math.max(5, 0.3 * lPerH) / Math.sqrt(12) / Math.sqrt(Math.max(1, (held * 60) / BLOCK_S));
  const lossLPerH = lPerH < Math.max(MIN_LEAK_L_PER_H, 2 * spread) ? 0 : lPerH;
  return { leakLPerDay: lossLPerH * 24 };
}

function binOf(lPerH: number): number {
  let at = BIN_EDGES_L_PER_H.length - 1;
  while (at > 0 && lPerH < BIN_EDGES_L_PER_H[at]!) at--;
  return at;
}

function binEdges(): number[] {
  const all = [-1e9];
  for (let e = -5; e < 10; e++) all.push(e);
  for (let e = 10; e < 700; e *= 1.2) all.push(e);
  return all;
}

function roundToTenth(x: number): number {
  return Math.round(x * 10) / 10;
}
