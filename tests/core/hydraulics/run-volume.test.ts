import { describe, expect, test } from 'vitest';
import { newDeliveryEstimate } from '../../../src/core/hydraulics/delivery.ts';
import type { DeliveryCurve } from '../../../src/core/hydraulics/delivery-curve.ts';
import {
  closeRunWater,
  newRunWaterState,
  addRunReading,
  type RunInputs,
} from '../../../src/core/hydraulics/run-volume.ts';
import { tankOf } from '../../../src/core/hydraulics/tank.ts';

const tank = tankOf({ kind: 'captive-air', volumeL: 235, prechargeKpa: 262 }, 0)!;
/** Charged at 20 C, it lies at 11 C. */
const airKpaL = (tank.airKpaL * (273.15 + 11)) / (273.15 + 20);
const level: DeliveryCurve = { rate: 7e-6, kpa: 340, fallPerKpa: 0, maxKpa: 414 };

function readsWith(known: boolean): RunInputs {
  return {
    delivery: known ? { ...newDeliveryEstimate(), curve: level, established: true } : newDeliveryEstimate(),
    knee: [],
    tank,
    trace: null,
    atmosphereKpa: tank.atmosphereKpa,
    coolingS: 30,
    warmRatio: 1,
    noiseKpa: 1,
  };
}

/** A run by its pressures, a reading each 10 s. */
function run(kpas: number[], reads: RunInputs): ReturnType<typeof closeRunWater> {
  const open = newRunWaterState(0, { kpa: 278, airVolume: 1 / (278 + tank.atmosphereKpa) });
  for (const [i, kpa] of kpas.entries()) {
    addRunReading(open, {
      atMs: i * 10_000,
      kpa,
      airVolume: 1 / (kpa + tank.atmosphereKpa),
      curve: reads.delivery.curve,
    });
  }
  return closeRunWater(open, kpas.length * 10_000, reads);
}

describe('closeRun', () => {
  test('gives the learnt delivery over the run, whatever the tank took', () => {
    const water = run([276, 290, 310, 330, 350, 370, 390, 410], readsWith(true));
    expect(water.deliveredL).toBeCloseTo(7e-6 * 80 * airKpaL, 6);
    expect(water.tankGainL! + water.drawnL!).toBeCloseTo(water.deliveredL!, 6);
    expect(water.riseDelayS).toBe(10);
  });
  test('counts above the highest fill only what the tank takes', () => {
    const water = run([276, 345, 414, 500, 560, 560, 560, 560, 560, 560], readsWith(true));
    const upTo500 = 7e-6 * 20 * airKpaL;
    const after = airKpaL * (1 / (414 + tank.atmosphereKpa) - 1 / (560 + tank.atmosphereKpa));
    expect(water.deliveredL).toBeCloseTo(upTo500 + after, 6);
  });
  test('takes the card’s rating before anything is learnt and nothing of the fill is seen', () => {
    expect(run([276, 300, 330], { ...readsWith(false), ratedLPerS: 0.6 }).deliveredL).toBeCloseTo(18, 6);
    expect(run([276, 300, 330], readsWith(false))).not.toHaveProperty('deliveredL');
  });
  test('is empty for a run without a reading', () => {
    expect(closeRunWater(newRunWaterState(0), 60_000, readsWith(true))).toEqual({});
  });
});
