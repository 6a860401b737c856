import { describe, expect, it } from 'vitest';
import { ampsAtNormalVolts } from '../../../src/core/baseline/comparable-amps.ts';
import {
  learnSupply,
  newSupplyEffect,
  slopeUncertainty,
  supplyFactorUncertainty,
  supplyFactor,
  supplySlope,
} from '../../../src/core/baseline/supply.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';

const run = (amps: number, volts?: number): Cycle => ({
  pump: 0,
  startedMs: 0,
  stoppedMs: 100_000,
  ranS: 100,
  readings: 100,
  amps,
  ...(volts !== undefined && { volts }),
  flags: [],
});

/** A chance between -1 and 1 that is the same each time. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 1_073_741_824 - 1;
  };
}

/**
 * Runs of a motor whose current goes as the supply to the power of `slope`, wandering by `wander`,
 * scattering by 0.6 %.
 */
function taught(slope: number, wander: number, runs: number, drift = 0): ReturnType<typeof newSupplyEffect> {
  const supply = newSupplyEffect();
  const draw = chance(7);
  for (let i = 0; i < runs; i++) {
    const volts = 236 * (1 + wander * draw());
    const amps = 8 * (volts / 236) ** slope * (1 + 0.006 * draw()) * (1 + (drift * i) / runs);
    learnSupply(supply, run(amps, volts));
  }
  return supply;
}

describe('supplySlope', () => {
  it.each([
    ['a loaded motor draws more at less voltage', -0.8],
    ['a light one draws less', 0.9],
    ['one that does not care', 0],
  ])('%s', (_name, slope) => {
    expect(supplySlope(taught(slope, 0.03, 60))).toBeCloseTo(slope, 1);
  });

  it('a drift of the motor is not taken for the supply', () => {
    expect(Math.abs(supplySlope(taught(0, 0.03, 60, 0.08)))).toBeLessThan(0.1);
  });

  it('a supply that does not move teaches no slope, and says so', () => {
    const supply = taught(-0.8, 0.0005, 60);
    expect(Math.abs(supplySlope(supply))).toBeLessThan(0.4);
    expect(slopeUncertainty(supply)).toBeGreaterThan(0.4);
    expect(supplyFactorUncertainty(supply, 236 * 0.95)).toBeGreaterThan(0.02);
  });

  it('is known well after forty runs at a wandering supply', () => {
    expect(slopeUncertainty(taught(-0.8, 0.03, 40))).toBeLessThan(0.08);
  });
});

describe('supplyFactor', () => {
  it('brings a current to the usual supply', () => {
    const supply = taught(-0.8, 0.03, 60);
    const atLow = 8 * 0.95 ** -0.8;
    expect(atLow * supplyFactor(supply, 236 * 0.95)).toBeCloseTo(8, 0);
    expect(Math.abs((atLow * supplyFactor(supply, 236 * 0.95)) / 8 - 1)).toBeLessThan(0.01);
  });

  it('leaves alone what has no voltage', () => {
    const supply = newSupplyEffect();
    for (let i = 0; i < 20; i++) learnSupply(supply, run(8));
    expect(supply).toEqual(newSupplyEffect());
    expect(supplyFactor(supply, undefined)).toBe(1);
    expect(ampsAtNormalVolts(run(8))).toBeUndefined();
    expect(ampsAtNormalVolts({ ...run(8), toNormalVolts: 1.02 })).toBeCloseTo(8.16);
  });
});
