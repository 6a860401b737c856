/** CUSUM, EWMA and their run lengths against published columns and tables, and a budget of false alarms that holds on data that hang together. */
import { describe, expect, it } from 'vitest';
import { FALSE_ALARMS_A_YEAR, runLengthFor, widenFor } from '../../src/watch/budget.ts';
import { cusumSays, cusumStep, newCusum } from '../../src/watch/cusum.ts';
import { ewmaLimit, ewmaStep } from '../../src/watch/ewma.ts';
import {
  cusumArl,
  cusumArlTwoSided,
  cusumLimit,
  ewmaArl,
  ewmaWidth,
  normalCdf,
  siegmundArl,
} from '../../src/watch/run-length.ts';
import {
  CUSUM_H5,
  LUCAS_CROSIER,
  LUCAS_SACCUCCI,
  NIST_CUSUM,
  NIST_EWMA,
  ONE_SIDED,
  SAS_EWMA,
} from '../reference/control-charts.ts';

describe('cusumStep', () => {
  it('prints the columns of NIST 6.3.2.3 and signals first at group 14', () => {
    const { target, k, h, x, tolerance } = NIST_CUSUM;
    const sums = newCusum();
    let first = 0;
    for (const [at, value] of x.entries()) {
      cusumStep(sums, value - target, k);
      expect(Math.abs(sums.high - NIST_CUSUM.high[at]!)).toBeLessThan(tolerance);
      expect(Math.abs(sums.low - NIST_CUSUM.low[at]!)).toBeLessThan(tolerance);
      if (first === 0 && cusumSays(sums, h)) first = at + 1;
    }
    expect(first).toBe(NIST_CUSUM.firstSignal);
    expect(cusumSays(sums, h)).toBe('high');
    expect(cusumSays({ high: 0, low: 5 }, 4)).toBe('low');
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
      mean = ewmaStep(mean, value, lambda);
      expect(Math.abs(mean - NIST_EWMA.ewma[at]!)).toBeLessThan(tolerance);
      expect(Math.abs(mean - start)).toBeLessThan(limit);
    }
  });
});

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
    // At shift 2 and more the other side does not matter, and their two-sided figure is the one-sided one.
    for (const [shift, , arl] of LUCAS_CROSIER.slice(6, 9)) {
      expect(Math.abs(cusumArl({ k: 0.5, h: 4, shift, start: 2 }) / arl - 1)).toBeLessThan(0.01);
    }
  });
  it('of the EWMA are those of Lucas & Saccucci 1990 and SAS/QC 1999', () => {
    for (const [shift, half, three] of LUCAS_SACCUCCI) {
      expect(Math.abs(ewmaArl({ lambda: 0.5, width: 3.071, shift }) / half - 1)).toBeLessThan(0.006);
      expect(Math.abs(ewmaArl({ lambda: 0.03, width: 2.437, shift }) / three - 1)).toBeLessThan(0.01);
    }
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
        expect(Math.abs(siegmundArl({ k, h, shift: 0 }) / arl - 1)).toBeLessThan(1e-6);
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

/** A seeded generator of normal values (mulberry32 and Box-Muller): the same on every run. */
function normals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe('the budget', () => {
  it('shares out less than the whole', () => {
    const aYear = (['amps-high', 'amps-low', 'slow-fill', 'tank-air-lost'] as const).reduce(
      (sum, kind) => sum + 4000 / runLengthFor(kind, 4000),
      0,
    );
    expect(aYear + 365 / runLengthFor('cycle-count', 365)).toBeCloseTo(FALSE_ALARMS_A_YEAR, 6);
    expect(runLengthFor('amps-high', 10)).toBeGreaterThanOrEqual(100);
  });

  it.each([0.3, 0.5, 0.7])('is kept on AR(1) data of %d by widening sigma, and broken without', (phi) => {
    const k = 0.5;
    const wanted = 400;
    const h = cusumLimit(k, wanted);
    const runLength = (widen: number): number => {
      const next = normals(7);
      const innovation = Math.sqrt(1 - phi * phi);
      let value = 0;
      let steps = 0;
      let alarms = 0;
      let sums = newCusum();
      while (steps < 150_000) {
        value = phi * value + innovation * next();
        cusumStep(sums, value / widen, k);
        steps++;
        if (sums.high > h) {
          alarms++;
          sums = newCusum();
        }
      }
      return steps / Math.max(1, alarms);
    };
    expect(runLength(1)).toBeLessThan(wanted / 2);
    expect(runLength(widenFor(phi))).toBeGreaterThan(wanted);
  });

  it('takes twenty years of a wild pump (AR(1) 0.4, heavy tails) with one false alarm at most', () => {
    const next = normals(11);
    const sums = newCusum();
    const h = cusumLimit(1, runLengthFor('amps-high', 12 * 365));
    let value = 0;
    let alarms = 0;
    for (let i = 0; i < 20 * 12 * 365; i++) {
      const kick = next() * (i % 50 === 0 ? 2.5 : 1);
      value = 0.4 * value + Math.sqrt(1 - 0.16) * kick;
      cusumStep(sums, Math.max(-4, Math.min(4, value / widenFor(0.4))), 1);
      if (sums.high > h) {
        alarms++;
        sums.high = 0;
      }
    }
    expect(alarms).toBeLessThanOrEqual(1);
  });
});
