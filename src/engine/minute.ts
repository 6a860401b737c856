/**
 * What one whole minute showed, gathered reading by reading. The lowest and highest reading are left out where there are five or
 * more, so that nothing downstream rests on one of them.
 */
import type { MinutePump, MinuteScene, Spread } from '../watch/scene.ts';

export interface SpreadSums {
  n: number;
  sum: number;
  low1: number;
  low2: number;
  high1: number;
  high2: number;
  last: number;
}

export interface MinuteSums {
  kpa: SpreadSums;
  temperatureC: SpreadSums;
  levelM: SpreadSums;
  storeM: SpreadSums;
  pumps: PumpMinuteSums[];
}

export interface PumpMinuteSums {
  ranMs: number;
  heardMs: number;
  running: SpreadSums[];
  resting: SpreadSums;
  volts: SpreadSums[];
  /** Pressure of this pump alone, where it has one. */
  kpa?: SpreadSums;
}

const ROBUST_FROM = 5;

export function newSpread(): SpreadSums {
  return { n: 0, sum: 0, low1: 0, low2: 0, high1: 0, high2: 0, last: 0 };
}

export function newMinute(pumps: number): MinuteSums {
  return {
    kpa: newSpread(),
    temperatureC: newSpread(),
    levelM: newSpread(),
    storeM: newSpread(),
    pumps: Array.from({ length: pumps }, () => ({
      ranMs: 0,
      heardMs: 0,
      running: [],
      resting: newSpread(),
      volts: [],
    })),
  };
}

export function spreadReading(sums: SpreadSums, value: number): void {
  if (sums.n === 0) {
    sums.low1 = sums.low2 = sums.high1 = sums.high2 = value;
  } else {
    if (value < sums.low1) {
      sums.low2 = sums.low1;
      sums.low1 = value;
    } else if (sums.n === 1 || value < sums.low2) sums.low2 = value;
    if (value > sums.high1) {
      sums.high2 = sums.high1;
      sums.high1 = value;
    } else if (sums.n === 1 || value > sums.high2) sums.high2 = value;
  }
  sums.n++;
  sums.sum += value;
  sums.last = value;
}

function clearSpread(sums: SpreadSums): void {
  sums.n = 0;
  sums.sum = 0;
}

export function spreadOf(sums: SpreadSums): Spread | undefined {
  if (sums.n === 0) return undefined;
  const robust = sums.n >= ROBUST_FROM;
  return {
    n: sums.n,
    mean: sums.sum / sums.n,
    low: robust ? sums.low2 : sums.low1,
    high: robust ? sums.high2 : sums.high1,
    last: sums.last,
  };
}

/** The line's or phase's sums, made when it first speaks. */
export function spreadAt(list: SpreadSums[], at: number): SpreadSums {
  while (list.length <= at) list.push(newSpread());
  return list[at]!;
}

function spreadsOf(list: SpreadSums[]): Spread[] {
  return list.map(spreadOf).filter((s): s is Spread => s !== undefined);
}

function pumpOf(sums: PumpMinuteSums, calls: boolean | undefined): MinutePump {
  const pump: MinutePump = {
    ranS: sums.ranMs / 1000,
    heardS: sums.heardMs / 1000,
    running: spreadsOf(sums.running),
  };
  const resting = spreadOf(sums.resting);
  const kpa = sums.kpa && spreadOf(sums.kpa);
  if (resting) pump.resting = resting;
  if (sums.volts.length > 0) pump.volts = spreadsOf(sums.volts);
  if (kpa) pump.kpa = kpa;
  if (calls !== undefined) pump.calls = calls;
  return pump;
}

/** The minute's picture; the sums begin anew. `calls`: each pump's call for water, where it has such a contact. */
export function closeMinute(sums: MinuteSums, atMs: number, calls: (boolean | undefined)[]): MinuteScene {
  const scene: MinuteScene = { atMs, pumps: sums.pumps.map((pump, at) => pumpOf(pump, calls[at])) };
  const kpa = spreadOf(sums.kpa);
  const temperatureC = spreadOf(sums.temperatureC);
  const levelM = spreadOf(sums.levelM);
  const storeM = spreadOf(sums.storeM);
  if (kpa) scene.kpa = kpa;
  if (temperatureC) scene.temperatureC = temperatureC;
  if (levelM) scene.levelM = levelM;
  if (storeM) scene.storeM = storeM;
  for (const spread of [sums.kpa, sums.temperatureC, sums.levelM, sums.storeM]) clearSpread(spread);
  for (const pump of sums.pumps) {
    pump.ranMs = 0;
    pump.heardMs = 0;
    pump.running = [];
    pump.volts = [];
    clearSpread(pump.resting);
    if (pump.kpa) clearSpread(pump.kpa);
  }
  return scene;
}
