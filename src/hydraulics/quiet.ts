/**
 * The leak: what is lost while nobody draws. What is quiet is found from the data. The rest of the day is cut into blocks of six
 * minutes, each with its rate of loss; people's draws scatter over all rates, but a leak is the same at noon and at night, so it is
 * the lowest rate at which blocks crowd. (Minimum night flow without a clock.)
 */

import { newCeaseless, noteBlock, type Ceaseless } from './ceaseless.ts';

const BLOCK_S = 360;
/** A shorter block counts when the rest ends in it. */
const SHORTEST_BLOCK_S = 150;
/** Minutes that must have been judged before anything is said (contract). */
const FEWEST_MINUTES = 30;
/** Edges of the bins, L/h: even about zero, then in ratios of 1.2 up to 700. */
const EDGES: readonly number[] = edges();
/** Under this the day's temperature moves the air as much as a leak would: 10 K from noon to night on a common tank. */
const FEWEST_L_PER_H = 1.5;

export interface Quiet {
  /** The block going on: sums of time (s) and room, for its slope. */
  sinceMs: number;
  n: number;
  s: number;
  ss: number;
  y: number;
  sy: number;
  lastS: number;
  firstRoom: number;
  /** Minutes and sum of (minutes x L/h) of the blocks in each bin, this day. */
  minutes: number[];
  sums: number[];
  /** Sum of squares of the blocks' slope errors, and their count. */
  errors: number;
  blocks: number;
  ceaseless: Ceaseless;
}

export interface Leak {
  leakLPerDay: number;
  /** Standard error, L a day. */
  leakSpread: number;
}

export function newQuiet(): Quiet {
  return {
    ...noBlock(),
    minutes: EDGES.map(() => 0),
    sums: EDGES.map(() => 0),
    errors: 0,
    blocks: 0,
    ceaseless: newCeaseless(),
  };
}

function noBlock() {
  return { sinceMs: -1, n: 0, s: 0, ss: 0, y: 0, sy: 0, lastS: 0, firstRoom: 0 };
}

/** Starts no block and drops the one going on. */
export function breakQuiet(quiet: Quiet): void {
  Object.assign(quiet, noBlock());
}

/** A reading at rest, clear of the last fill's cooling. `airKpaL` turns the room of the air (1/kPa) into litres. */
export function quietReading(quiet: Quiet, atMs: number, room: number, airKpaL: number): void {
  if (quiet.sinceMs < 0) {
    quiet.sinceMs = atMs;
    quiet.firstRoom = room;
  }
  const s = (atMs - quiet.sinceMs) / 1000;
  const y = (room - quiet.firstRoom) * airKpaL;
  quiet.n++;
  quiet.s += s;
  quiet.ss += s * s;
  quiet.y += y;
  quiet.sy += s * y;
  quiet.lastS = s;
  if (s >= BLOCK_S) endBlock(quiet);
}

/** Books the block where it is long enough. */
export function endBlock(quiet: Quiet): void {
  const { n, lastS } = quiet;
  if (lastS >= SHORTEST_BLOCK_S && n >= 4) {
    const xx = quiet.ss - quiet.s ** 2 / n;
    const lPerH = ((quiet.sy - (quiet.s * quiet.y) / n) / xx) * 3600;
    const bin = binOf(lPerH);
    quiet.minutes[bin] = round(quiet.minutes[bin]! + lastS / 60);
    quiet.sums[bin] = round(quiet.sums[bin]! + (lastS / 60) * Math.min(lPerH, 1e4));
    quiet.blocks++;
    noteBlock(quiet.ceaseless, quiet.sinceMs + lastS * 1000, lPerH);
  }
  breakQuiet(quiet);
}

/** What the day's blocks say, or undefined where too few minutes were quiet to judge by. Starts a new day. */
export function endQuietDay(quiet: Quiet): Leak | undefined {
  const { minutes, sums } = quiet;
  const leak = crowd(minutes, sums);
  quiet.minutes = EDGES.map(() => 0);
  quiet.sums = EDGES.map(() => 0);
  quiet.blocks = 0;
  quiet.errors = 0;
  return leak;
}

/** The lowest rate at which blocks crowd: windows of a fixed width near zero and of a quarter above it. */
function crowd(minutes: readonly number[], sums: readonly number[]): Leak | undefined {
  const windows = EDGES.map((low, from) => {
    const high = low + Math.max(5, 0.3 * Math.abs(low));
    let held = 0;
    let sum = 0;
    for (let i = from; i < EDGES.length && EDGES[i]! < high; i++) {
      held += minutes[i]!;
      sum += sums[i]!;
    }
    return { held, sum };
  });
  const most = Math.max(...windows.map((w) => w.held));
  if (most < FEWEST_MINUTES) return undefined;
  const first = windows.findIndex((w) => w.held >= Math.max(FEWEST_MINUTES, most * 0.6));
  let best = first;
  while (best + 1 < windows.length && windows[best + 1]!.held > windows[best]!.held) best++;
  const { held, sum } = windows[best]!;
  const lPerH = sum / held;
  const spread = Math.max(5, 0.3 * lPerH) / Math.sqrt(12) / Math.sqrt(Math.max(1, (held * 60) / BLOCK_S));
  const told = lPerH < Math.max(FEWEST_L_PER_H, 2 * spread) ? 0 : lPerH;
  return { leakLPerDay: told * 24, leakSpread: spread * 24 };
}

function binOf(lPerH: number): number {
  let at = EDGES.length - 1;
  while (at > 0 && lPerH < EDGES[at]!) at--;
  return at;
}

function edges(): number[] {
  const all = [-1e9];
  for (let e = -5; e < 10; e++) all.push(e);
  for (let e = 10; e < 700; e *= 1.2) all.push(e);
  return all;
}

function round(x: number): number {
  return Math.round(x * 10) / 10;
}
