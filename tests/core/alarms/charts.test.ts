/**
 * CUSUM, EWMA and their run lengths against published columns and tables, and a budget of false
 * alarms that holds on data that hang together.
 */
import { describe, expect, it } from 'vitest';
import { cusumDirection, updateCusum, newCusum } from '../../../src/core/alarms/charts/cusum.ts';
import { ewmaLimit, updateEwma } from '../../../src/core/alarms/charts/ewma.ts';
import {
  cusumArl,
  cusumLimit,
  ewmaArl,
  ewmaWidth,
  normalCdf,
  siegmundArl,
} from '../../../src/core/alarms/charts/run-length.ts';
import {
  CUSUM_H5,
  EWMA_TENTH,
  LUCAS_CROSIER,
  LUCAS_SACCUCCI,
  NIST_CUSUM,
  NIST_EWMA,
  ONE_SIDED,
  SAS_EWMA,
} from '../../reference/control-charts.ts';

describe('cusumStep', () => {
  it('prints the columns of NIST 6.3.2.3 and signals first at group 14', () => {
    const { target, k, h, x, tolerance } = NIST_CUSUM;
    const sums = newCusum();
    let first = 0;
    for (const [at, value] of x.entries()) {
      updateCusum(sums, value - target, k);
      expect(Math.abs(sums.high - NIST_CUSUM.high[at]!)).toBeLessThan(tolerance);
      expect(Math.abs(sums.low - NIST_CUSUM.low[at]!)).toBeLessThan(tolerance);
      if (first === 0 && cusumDirection(sums, h)) first = at + 1;
    }
    expect(first).toBe(NIST_CUSUM.firstSignal);
    expect(cusumDirection(sums, h)).toBe('high');
    expect(cusumDirection({ high: 0, low: 5 }, 4)).toBe('low');
  });
});

describe('ewmaStep', () => {
  it('prints the column and limits of NIST 6.3.2.4, with no point outside', () => {
    const { lambda, start, sigma, width, x, tolerance, limitTolerance } = NIST_EWMA;
    const limit = ewmaLimit(sigma, lambda, width);
    expect(Math.abs(start + limit - NIST_EWMA.upper)).toBeLessThan(limitTolerance);
    expect(Math.abs(start - limit - NIST_EWMA.lower)).toBeLessThan(limitTolerance);
    let mean: number = start;
    for (const [at, value] of x.entries()) {
      mean = updateEwma(mean, value, lambda);
      expect(Math.abs(mean - NIST_EWMA.ewma[at]!)).toBeLessThan(tolerance);
      expect(Math.abs(mean - start)).toBeLessThan(limit);
    }
  });
});

/** ARL of the two-sided chart: 1/ARL = 1/ARL(up) + 1/ARL(down), exact without a head start. */
function cusumArlTwoSided(chart: { k: number; h: number; shift: number }): number {
  return 1 / (1 / cusumArl(chart) + 1 / cusumArl({ ...chart, shift: -chart.shift }));
}

describe('run lengths', () => {
  it('of the two-sided CUSUM k 0.5 h 4 are those of Lucas & Crosier 1982, within 0.5 % and their printing', () => {
    for (const [shift, arl] of LUCAS_CROSIER.slice(0, 10)) {
      expect(Math.abs(cusumArlTwoSided({ k: 0.5, h: 4, shift }) / arl - 1)).toBeLessThan(0.006);
    }
  });
  it('of the one-sided CUSUM are those of Brook & Evans 1972 and SAS/QC 1999', () => {
    for (const [k, h, shift, arl] of ONE_SIDED)
      expect(Math.abs(cusumArl({ k, h, shift }) / arl - 1)).toBeLessThan(0.001);
  });
  it('of the two-sided CUSUM k 0.5 h 5 are those of Montgomery, recomputed', () => {
    for (const [shift, arl] of CUSUM_H5)
      expect(Math.abs(cusumArlTwoSided({ k: 0.5, h: 5, shift }) / arl - 1)).toBeLessThan(0.005);
  });
  it('with a head start of half the limit are shorter, as Lucas & Crosier print for a large shift', () => {
    // At shift 2 and more the other side does not matter, and their two-sided figure is the
    // one-sided one.
    for (const [shift, , arl] of LUCAS_CROSIER.slice(6, 9)) {
      expect(Math.abs(cusumArl({ k: 0.5, h: 4, shift, start: 2 }) / arl - 1)).toBeLessThan(0.01);
    }
  });
  it('of the EWMA are those of Lucas & Saccucci 1990 and SAS/QC 1999', () => {
    for (const [shift, half, three] of LUCAS_SACCUCCI) {
      expect(Math.abs(ewmaArl({ lambda: 0.5, width: 3.071, shift }) / half - 1)).toBeLessThan(0.006);
      expect(Math.abs(ewmaArl({ lambda: 0.03, width: 2.437, shift }) / three - 1)).toBeLessThan(0.01);
    }
    for (const [shift, arl] of EWMA_TENTH)
      expect(Math.abs(ewmaArl({ lambda: 0.1, width: 2.814, shift }) / arl - 1)).toBeLessThan(0.01);
    expect(ewmaArl(SAS_EWMA)).toBeCloseTo(SAS_EWMA.arl, 2);
  });
  it('by Siegmund agree with the chain within 8 % up to k 1', () => {
    for (const k of [0.25, 0.5, 1]) {
      for (const h of [3, 4, 5]) {
        expect(Math.abs(siegmundArl({ k, h, shift: 0 }) / cusumArl({ k, h, shift: 0 }) - 1)).toBeLessThan(
          0.08,
        );
      }
    }
    expect(siegmundArl({ k: 0.5, h: 3, shift: 0.5 })).toBeCloseTo(4.166 ** 2, 6);
  });
  it('and limits are each other’s inverse', () => {
    for (const arl of [200, 5_000, 1e6]) {
      for (const k of [0.25, 0.5, 1]) {
        const h = cusumLimit(k, arl);
        expect(siegmundArl({ k, h, shift: 0 }) / arl).toBeCloseTo(1.07, 6);
        // Siegmund's form is long; the limit is not, by more than 1 %.
        const exact = cusumArl({ k, h, shift: 0 });
        expect(exact / arl).toBeGreaterThan(0.99);
        expect(exact / arl).toBeLessThan(1.08);
      }
    }
    const width = ewmaWidth(0.2, 1000);
    expect(Math.abs(ewmaArl({ lambda: 0.2, width, shift: 0 }) / 1000 - 1)).toBeLessThan(0.01);
    expect(ewmaWidth(0.2, 1000)).toBe(width);
  });
  it('normalCdf is right to six digits (1.96: 0.9750021, -3: 0.0013499)', () => {
    expect(normalCdf(1.96)).toBeCloseTo(0.9750021, 6);
    expect(normalCdf(-3)).toBeCloseTo(0.0013499, 6);
    expect(normalCdf(0)).toBeCloseTo(0.5, 6);
  });
});
