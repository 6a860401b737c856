import { describe, expect, test } from 'vitest';
import {
  acceptanceFactor,
  atmosphereKpa,
  prechargeKpa,
  pressureOfWaterKpa,
  tankDrawdownL,
  tankOf,
  waterInTankL,
} from '../../../src/core/hydraulics/tank.ts';

const PSI = 6.894757293168;
const GAL = 3.785411784;
const FT = 0.3048;

function factor(options: {
  volumeGal?: number;
  prechargePsi: number;
  inPsi: number;
  outPsi: number;
  altitudeFt?: number;
}): number {
  const { volumeGal = 85, prechargePsi, inPsi, outPsi, altitudeFt = 0 } = options;
  const tank = tankOf(
    { kind: 'captive-air', volumeL: volumeGal * GAL, prechargeKpa: prechargePsi * PSI },
    altitudeFt * FT,
  )!;
  return acceptanceFactor(tank, { cutInKpa: inPsi * PSI, cutOutKpa: outPsi * PSI });
}

describe('acceptanceFactor', () => {
  // Pelikan, "How to Calculate and Control Pressure Tank Drawdown", The Driller, 2006-02-01: 30/50,
  // precharge 28, 85 gal: 0.295, 25.1 gal.
  test('is that of The Driller’s worked example', () => {
    expect(factor({ prechargePsi: 28, inPsi: 30, outPsi: 50 })).toBeCloseTo(0.295, 3);
    const tank = tankOf({ kind: 'captive-air', volumeL: 85 * GAL, prechargeKpa: 28 * PSI }, 0)!;
    expect(tankDrawdownL(tank, { cutInKpa: 30 * PSI, cutOutKpa: 50 * PSI }) / GAL).toBeCloseTo(25.1, 1);
  });

  // The three factors that circulate under one name (reckoned from the example's formula at 14.7
  // psi): between the switch points, with precharge = cut-in, and from empty to cut-out.
  test.each([
    [20, 40, 0.3446, 0.3656, 0.4022],
    [30, 50, 0.2953, 0.3091, 0.34],
    [40, 60, 0.2579, 0.2677, 0.2945],
    [50, 70, 0.2288, 0.2361, 0.2597],
  ])(
    'of a %d/%d switch, 2 psi under cut-in, at cut-in, and from empty',
    (inPsi, outPsi, between, atCutIn, fromEmpty) => {
      expect(factor({ prechargePsi: inPsi - 2, inPsi, outPsi })).toBeCloseTo(between, 3);
      expect(factor({ prechargePsi: inPsi, inPsi, outPsi })).toBeCloseTo(atCutIn, 3);
      expect(factor({ prechargePsi: inPsi - 2, inPsi: inPsi - 2, outPsi })).toBeCloseTo(fromEmpty, 3);
    },
  );

  // Same formula; gallons between the switch points by nominal size.
  test.each([
    [20, 6.89, 5.91, 5.16, 4.58],
    [32, 11.03, 9.45, 8.25, 7.32],
    [44, 15.16, 12.99, 11.35, 10.07],
    [62, 21.36, 18.31, 15.99, 14.19],
    [86, 29.63, 25.39, 22.18, 19.68],
    [119, 41.0, 35.14, 30.7, 27.23],
  ])('times %d gal gives the drawdown of each switch', (volumeGal, ...gallons) => {
    for (const [i, inPsi] of [20, 30, 40, 50].entries()) {
      const share = factor({ volumeGal, prechargePsi: inPsi - 2, inPsi, outPsi: inPsi + 20 });
      expect(Math.abs((share * volumeGal) / gallons[i]! - 1)).toBeLessThan(0.001);
    }
  });

  test.each([
    ['28 psi', 28, 0.2953],
    ['20 psi', 20, 0.24],
    ['10 psi', 10, 0.1708],
    ['a plain tank begun with air as it is outside', 0, 0.1017],
  ])('shrinks with the precharge: %s', (_, prechargePsi, want) => {
    expect(factor({ prechargePsi, inPsi: 30, outPsi: 50 })).toBeCloseTo(want, 3);
  });

  test.each([
    [0, 0.2953],
    [2500, 0.3008],
    [5000, 0.3062],
    [7500, 0.3113],
  ])('grows with altitude: %d ft', (altitudeFt, want) => {
    expect(factor({ prechargePsi: 28, inPsi: 30, outPsi: 50, altitudeFt })).toBeCloseTo(want, 3);
  });

  test('counts only what lies above a precharge over cut-in: 35 psi on 30/50', () => {
    expect(factor({ prechargePsi: 35, inPsi: 30, outPsi: 50 })).toBeCloseTo(0.2318, 3);
  });
});

describe('atmosphereKpa', () => {
  // US Standard Atmosphere 1976, from memory, recomputed.
  test.each([
    [0, 101.33],
    [2500, 92.5],
    [5000, 84.31],
    [7500, 76.71],
  ])('at %d ft', (feet, kpa) => {
    expect(atmosphereKpa(feet * FT)).toBeCloseTo(kpa, 1);
  });
});

describe('waterInTankL', () => {
  const tank = tankOf({ kind: 'captive-air', volumeL: 235, prechargeKpa: 262 }, 300)!;

  test('is undone by pressureOfWaterKpa', () => {
    for (const kpa of [270, 300, 400, 500])
      expect(pressureOfWaterKpa(tank, waterInTankL(tank, kpa))).toBeCloseTo(kpa, 6);
  });
  test('is nothing under the precharge', () => {
    expect(waterInTankL(tank, 200)).toBe(0);
  });
  test('gives its precharge back', () => {
    expect(prechargeKpa(tank)).toBeCloseTo(262, 9);
  });
});

describe('tankOf', () => {
  test.each([
    ['no tank', undefined],
    ['no volume', { kind: 'captive-air' as const, prechargeKpa: 200 }],
    ['captive air without precharge', { kind: 'captive-air' as const, volumeL: 200 }],
  ])('says nothing of %s', (_, card) => {
    expect(tankOf(card, 0)).toBeUndefined();
  });
  test('takes a plain tank as filled from the open air', () => {
    expect(prechargeKpa(tankOf({ kind: 'plain', volumeL: 300 }, 0)!)).toBeCloseTo(0, 9);
  });
});
