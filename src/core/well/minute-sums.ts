/**
 * What one whole minute showed, gathered reading by reading. The lowest and highest reading are
 * left out where there are five or more, so that nothing downstream rests on one of them.
 */
import type { MinutePump, MinuteScene, MinuteStats } from '../alarms/scene.ts';

export interface StatsSums {
  n: number;
  sum: number;
  low1: number;
  low2: number;
  high1: number;
  high2: number;
  last: number;
}

export interface MinuteSums {
  kpa: StatsSums;
  temperatureC: StatsSums;
  levelM: StatsSums;
  storeM: StatsSums;
  pumps: PumpMinuteSums[];
}

export interface PumpMinuteSums {
  ranMs: number;
  heardMs: number;
  running: StatsSums[];
  resting: StatsSums;
  volts: StatsSums[];
  /** Pressure of this pump alone, where it has one. */
  kpa?: StatsSums;
}

const MIN_ROBUST_READINGS = 5;

export function newStatsSums(): StatsSums {
  return { n: 0, sum: 0, low1: 0, low2: 0, high1: 0, high2: 0, last: 0 };
}

export function newMinuteSums(pumps: number): MinuteSums {
  return {
    kpa: newStatsSums(),
    temperatureC: newStatsSums(),
    levelM: newStatsSums(),
    storeM: newStatsSums(),
    pumps: Array.from({ length: pumps }, () => ({
      ranMs: 0,
      heardMs: 0,
      running: [],
      resting: newStatsSums(),
      volts: [],
    })),
  };
}

export function addToStats(sums: StatsSums, value: number): void {
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

function clearStats(sums: StatsSums): void {
  sums.n = 0;
  sums.sum = 0;
}

export function statsOf(sums: StatsSums): MinuteStats | undefined {
  if (sums.n === 0) return undefined;
  const robust = sums.n >= MIN_ROBUST_READINGS;
  return {
    n: sums.n,
    mean: sums.sum / sums.n,
    low: robust ? sums.low2 : sums.low1,
    high: robust ? sums.high2 : sums.high1,
    last: sums.last,
  };
}

/** The line's or phase's sums, made when it first speaks. */
export function statsAt(list: StatsSums[], at: number): StatsSums {
  while (list.length <= at) list.push(newStatsSums());
  return list[at]!;
}

function allStatsOf(list: StatsSums[]): MinuteStats[] {
  const all: MinuteStats[] = [];
  for (const sums of list) {
    const stats = statsOf(sums);
    if (stats) all.push(stats);
  }
  return all;
}

function minutePumpOf(sums: PumpMinuteSums, callsForWater: boolean | undefined): MinutePump {
  return {
    ranS: sums.ranMs / 1000,
    heardS: sums.heardMs / 1000,
    running: allStatsOf(sums.running),
    resting: statsOf(sums.resting),
    volts: sums.volts.length > 0 ? allStatsOf(sums.volts) : undefined,
    kpa: sums.kpa && statsOf(sums.kpa),
    callsForWater,
  };
}

/**
 * The minute's picture; the sums begin anew. `callsForWater`: each pump's call for water, where it
 * has such a contact.
 */
export function closeMinute(
  sums: MinuteSums,
  atMs: number,
  callsForWater: (boolean | undefined)[],
): MinuteScene {
  const scene: MinuteScene = {
    atMs,
    pumps: sums.pumps.map((pump, at) => minutePumpOf(pump, callsForWater[at])),
    kpa: statsOf(sums.kpa),
    temperatureC: statsOf(sums.temperatureC),
    levelM: statsOf(sums.levelM),
    storeM: statsOf(sums.storeM),
  };
  clearStats(sums.kpa);
  clearStats(sums.temperatureC);
  clearStats(sums.levelM);
  clearStats(sums.storeM);
  for (const pump of sums.pumps) {
    pump.ranMs = 0;
    pump.heardMs = 0;
    pump.running = [];
    pump.volts = [];
    clearStats(pump.resting);
    if (pump.kpa) clearStats(pump.kpa);
  }
  return scene;
}
