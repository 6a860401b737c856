import { describe, expect, it } from 'vitest';
import { addTo, mergeInto, newHistogram, quantile } from '../../../src/lab/score/histogram.ts';

describe('a spread', () => {
  it('tells quantiles by the upper end of a bin of two per cent, however it was put together', () => {
    const whole = newHistogram();
    const parts = [newHistogram(), newHistogram()];
    for (let i = 1; i <= 1000; i++) {
      addTo(whole, i / 1000);
      addTo(parts[i % 2]!, i / 1000);
    }
    mergeInto(parts[1]!, parts[0]!);
    expect(parts[1]).toEqual(whole);
    const p90 = quantile(whole, 0.9)!;
    expect(p90).toBeGreaterThanOrEqual(0.9);
    expect(p90).toBeLessThan(0.9 * 1.021);
  });

  it('keeps exact nothing apart, and tells nothing of nothing', () => {
    const spread = newHistogram();
    expect(quantile(spread, 0.5)).toBeUndefined();
    for (const value of [0, 0, 0, 5]) addTo(spread, value);
    expect([quantile(spread, 0.5), quantile(spread, 0.75)]).toEqual([0, 0]);
    expect(quantile(spread, 1)).toBeCloseTo(5, 0);
  });
});
