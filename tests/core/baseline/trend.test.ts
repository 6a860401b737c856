/** Trends against US EPA's published examples, and what a few bad values do to them. */
import { describe, expect, it } from 'vitest';
import { mannKendall, trendRise, theilSen } from '../../../src/core/baseline/trend.ts';
import { TRENDS } from '../../reference/trend.ts';

describe('mannKendall and theilSen', () => {
  it.each(TRENDS)('print $source', ({ t, x, s, variance, z, slope, up }) => {
    const found = mannKendall(x);
    expect(found.s).toBe(s);
    expect(found.variance).toBeCloseTo(variance, 3);
    expect(found.z).toBeCloseTo(z, 4);
    expect(theilSen(t, x)).toBeCloseTo(slope, 6);
    expect(trendRise(x) > 0).toBe(up);
  });
  it('say nothing where there is nothing: all alike, or no two times', () => {
    expect(mannKendall([3, 3, 3])).toEqual({ s: 0, variance: 0, z: 0 });
    expect(theilSen([1, 1], [2, 5])).toBeUndefined();
  });
});

describe('risen', () => {
  const climb = Array.from({ length: 15 }, (_, i) => 200 + 2 * i);
  it.each<[string, number[], number]>([
    ['an even climb', climb, 28],
    ['the same with one wild value', climb.map((value, i) => (i === 7 ? 400 : value)), 28],
    ['the same down', [...climb].reverse(), 0],
    ['held, with the noise of a transducer', climb.map((_, i) => 200 + ((i * 7) % 5) - 2), 0],
    ['two values are no trend', [1, 2], 0],
  ])('%s', (_name, values, up) => {
    expect(trendRise(values)).toBeCloseTo(up, 0);
  });
});
