/**
 * The energy of a run from measured power: spot readings, by exception, and means over a minute.
 */
import { describe, expect, it } from 'vitest';
import { addRate, newRunningSum, passedAt, type Reach } from '../../../src/core/well/running-sum.ts';
import { setRunEnergy, startRunEnergy, handlePower } from '../../../src/core/well/energy.ts';
import { channelFor, recordReading } from '../../../src/core/well/channels.ts';
import { newWell } from '../../../src/core/well/engine.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import { codeOf } from '../../../src/core/domain/channels.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';

const NOON = Date.UTC(2026, 2, 2, 12);
const POWER = codeOf('power');

/** Seconds after noon and watts, as a node sends them; the run is from `startS` to `stopS`. */
function energyOf(
  readings: readonly (readonly [number, number])[],
  [startS, stopS]: [number, number],
  spanS?: number,
): number | undefined {
  const well = newWell(defaultCardForNode('barn'));
  const channel = channelFor(well, POWER);
  if (spanS !== undefined) channel.spanMs = spanS * 1000;
  let started = false;
  for (const [s, watts] of readings) {
    recordReading(channel, NOON + s * 1000, watts);
    handlePower(well, 0, NOON + s * 1000, watts);
    if (started || s < startS) continue;
    startRunEnergy(well, 0, NOON + startS * 1000);
    started = true;
  }
  const cycle: Cycle = {
    pump: 0,
    startedMs: NOON + startS * 1000,
    stoppedMs: NOON + stopS * 1000,
    ranS: stopS - startS,
    readings: 0,
    flags: [],
  };
  setRunEnergy(well, 0, cycle);
  return cycle.energyWh;
}

const everySecond = (toS: number, watts: (s: number) => number): [number, number][] =>
  Array.from({ length: toS + 1 }, (_, s) => [s, watts(s)]);

describe('energyWh', () => {
  it('of a kilowatt for two minutes is 33.3 Wh', () => {
    const readings = everySecond(200, (s) => (s >= 60 && s < 180 ? 1000 : 0));
    // The half second of slope at each end is the sampling's.
    expect(energyOf(readings, [60, 180])).toBeCloseTo((1000 * 119.5) / 3600, 1);
  });

  it('of means over a minute counts the spans that hold start and stop', () => {
    // 800 W from 3:30 to 6:15.
    const means = [0, 0, 0, 0, 400, 800, 800, 200, 0, 0].map((w, at): [number, number] => [at * 60, w]);
    expect(energyOf(means, [240, 480], 60)).toBeCloseTo((800 * 165) / 3600, 2);
  });

  it('is absent where power was not heard in a part of the run', () => {
    const readings = everySecond(200, () => 1000).filter(([s]) => s < 90 || s > 150);
    expect(energyOf(readings, [60, 180])).toBeUndefined();
  });

  it('is absent where the run began before power was heard', () => {
    expect(
      energyOf(
        everySecond(200, () => 1000),
        [-60, 180],
      ),
    ).toBeUndefined();
  });
});

describe('running sum', () => {
  it.each<[Reach['covers'], number]>([
    ['between', 35],
    ['after', 30],
    ['before', 40],
  ])('a rate that covers the time %s', (covers, total) => {
    const sum = newRunningSum();
    for (const [tMs, rate] of [
      [0, 1],
      [10_000, 2],
      [20_000, 2],
    ] as const)
      addRate(sum, tMs, rate, { goodMs: 30_000, covers, historyMs: 60_000 });
    expect(sum.total).toBe(total);
    expect(passedAt(sum, 20_000)).toBe(sum.total);
  });
});
