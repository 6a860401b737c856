/** Conversions against published figures; the source stands beside each table. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SEA_LEVEL_KPA, atmosphericKpa } from '../../../shared/units/altitude.ts';
import { hFromS, minFromS, msFromS, sFromH, sFromMin, sFromMs } from '../../../shared/units/duration.ts';
import { ftFromM, inFromM, mFromFt, mFromIn, mFromMm, mmFromM } from '../../../shared/units/length.ts';
import { hpFromW, kwFromW, wFromHp, wFromKw } from '../../../shared/units/power.ts';
import { barFromKpa, kpaFromBar, kpaFromPsi, psiFromKpa } from '../../../shared/units/pressure.ts';
import { cFromF, fFromC } from '../../../shared/units/temperature.ts';
import {
  galFromL,
  gpmFromLPerS,
  lFromGal,
  lFromM3,
  lPerMinFromLPerS,
  lPerSFromGpm,
  lPerSFromLPerMin,
  lPerSFromM3PerH,
  m3FromL,
  m3PerHFromLPerS,
} from '../../../shared/units/water.ts';

describe('pressure', () => {
  // NIST SP 811 appendix B prints 6.894757 E+00 kPa a psi.
  test.each([
    ['1 psi', kpaFromPsi(1), 6.894757293168],
    ['1 bar', kpaFromBar(1), 100],
  ])('%s in kPa is exact', (_name, got, want) => {
    expect(got).toBeCloseTo(want, 12);
  });

  // Recomputed from the exact factor, two decimals.
  test.each([
    [20, 137.9],
    [30, 206.84],
    [40, 275.79],
    [50, 344.74],
    [60, 413.69],
  ])('%d psi is %d kPa to two decimals', (psi, kpa) => {
    expect(kpaFromPsi(psi)).toBeCloseTo(kpa, 2);
  });

  test('standard atmosphere is 14.695949 psi (NIST SP 811)', () => {
    expect(psiFromKpa(SEA_LEVEL_KPA)).toBeCloseTo(14.695949, 6);
  });
});

describe('water', () => {
  test('a US gallon is 231 cubic inches: 3.785411784 L (NIST SP 811)', () => {
    expect(lFromGal(1)).toBe(3.785411784);
    expect(lFromGal(1)).toBeCloseTo(231 * 0.254 ** 3, 12);
  });

  test('a gallon a minute in L/s, L/min and m3/h (recomputed from the exact gallon)', () => {
    expect(lPerSFromGpm(1)).toBeCloseTo(0.0630901964, 10);
    expect(lPerMinFromLPerS(lPerSFromGpm(1))).toBeCloseTo(3.785411784, 9);
    expect(m3PerHFromLPerS(lPerSFromGpm(1))).toBeCloseTo(0.227124707, 9);
  });

  test('a cubic foot is 7.48051948 gal (Unit Conversion Factors table)', () => {
    expect(galFromL(lFromM3(0.3048 ** 3))).toBeCloseTo(7.48051948, 8);
  });
});

describe('power', () => {
  // 550 ft lbf/s, exact by definition.
  test.each([
    [1, 745.699871582],
    [1 / 2, 372.85],
    [3 / 4, 559.27],
    [1.5, 1118.55],
    [5, 3728.5],
  ])('%d hp is %d W', (hp, w) => {
    expect(wFromHp(hp)).toBeCloseTo(w, 2);
  });
});

describe('length, temperature, duration', () => {
  test.each([
    ['1 ft', mFromFt(1), 0.3048],
    ['1 in', mFromIn(1), 0.0254],
    ['12 in are 1 ft', mFromIn(12), 0.3048],
    ['5,200 ft', mFromFt(5200), 1584.96],
    ['32 F', cFromF(32), 0],
    ['212 F', cFromF(212), 100],
    ['-40 F', cFromF(-40), -40],
    ['35 F', cFromF(35), 5 / 3],
    ['20 min', sFromMin(20), 1200],
    ['2 h', sFromH(2), 7200],
  ])('%s', (_name, got, want) => {
    expect(got).toBeCloseTo(want, 12);
  });
});

describe('atmosphericKpa', () => {
  // US Standard Atmosphere 1976 by the formula; figures recomputed, two decimals.
  test.each([
    [0, 101.33],
    [2500, 92.5],
    [5000, 84.31],
    [7500, 76.71],
  ])('at %d ft is %d kPa', (ft, kpa) => {
    expect(atmosphericKpa(mFromFt(ft))).toBeCloseTo(kpa, 1);
    expect(Math.abs(atmosphericKpa(mFromFt(ft)) - kpa)).toBeLessThan(0.006);
  });

  test('above the troposphere is refused', () => {
    expect(() => atmosphericKpa(12_000)).toThrow(
      'Cannot tell air pressure: altitude must be at most 11000 m: 12000',
    );
    expect(() => atmosphericKpa(Number.NaN)).toThrow(RangeError);
  });
});

test('every conversion comes back to where it began', () => {
  const pairs: [(v: number) => number, (v: number) => number][] = [
    [kpaFromPsi, psiFromKpa],
    [kpaFromBar, barFromKpa],
    [mFromFt, ftFromM],
    [mFromIn, inFromM],
    [mFromMm, mmFromM],
    [lFromGal, galFromL],
    [lFromM3, m3FromL],
    [lPerSFromGpm, gpmFromLPerS],
    [lPerSFromLPerMin, lPerMinFromLPerS],
    [lPerSFromM3PerH, m3PerHFromLPerS],
    [wFromHp, hpFromW],
    [wFromKw, kwFromW],
    [cFromF, fFromC],
    [sFromMin, minFromS],
    [sFromH, hFromS],
    [msFromS, sFromMs],
  ];
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
      for (const [to, back] of pairs) expect(back(to(value))).toBeCloseTo(value, 6);
    }),
    { seed: 1, numRuns: 300 },
  );
});
