/** Robust statistics against published values, and the defined case of MAD = 0. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mad, median, normalOf, quantile, spreadOf } from '../../../src/core/baseline/robust.ts';
import { URANIUM } from '../../reference/control-charts.ts';

describe('median and MAD', () => {
  it('are those of the uranium data of NIST 1.3.5.17.1', () => {
    expect(median(URANIUM.x)).toBeCloseTo(URANIUM.median, 10);
    expect(mad(URANIUM.x)).toBeCloseTo(URANIUM.mad, 10);
  });
  it('are undefined for nothing, and the value itself for one', () => {
    expect(median([])).toBeUndefined();
    expect(mad([])).toBeUndefined();
    expect(normalOf([])).toBeUndefined();
    expect(normalOf([8])).toEqual({ median: 8, spread: 0, n: 1 });
  });
  it('quantiles go along straight lines (R type 7)', () => {
    expect(quantile([1, 2, 3, 4], 0.25)).toBeCloseTo(1.75, 12);
    expect(quantile([4, 1, 3, 2], 1)).toBe(4);
  });
});

describe('spreadOf', () => {
  it('where MAD is 0 is 1.2533 x the mean absolute deviation', () => {
    expect(spreadOf([5, 5, 5, 5, 6])).toBeCloseTo(1.253314 / 5, 6);
  });
  it('is 0 only where all are the same', () => {
    expect(spreadOf([5, 5, 5])).toBe(0);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 20 }), (values) => {
        expect(spreadOf(values) === 0).toBe(new Set(values).size === 1);
      }),
      { seed: 4, numRuns: 200 },
    );
  });
  it('is not moved far by a wild minority', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 7.9, max: 8.1, noNaN: true }), { minLength: 9, maxLength: 40 }),
        fc.double({ min: 100, max: 1e6, noNaN: true }),
        (values, wild) => {
          const some = [...values, ...Array.from({ length: Math.floor(values.length / 3) }, () => wild)];
          expect(Math.abs(median(some)! - 8)).toBeLessThanOrEqual(0.1 + 1e-9);
          expect(spreadOf(some)).toBeLessThan(0.5);
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });
});
