import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  closeMinute,
  newMinuteSums,
  newStatsSums,
  statsOf,
  addToStats,
} from '../../../src/core/well/minute-sums.ts';

describe('spreadOf', () => {
  it('leaves out the lowest and the highest of five or more', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -50, max: 900, noNaN: true }), { minLength: 1, maxLength: 80 }),
        (values) => {
          const sums = newStatsSums();
          for (const v of values) addToStats(sums, v);
          const sorted = [...values].sort((a, b) => a - b);
          const out = values.length >= 5 ? 1 : 0;
          const spread = statsOf(sums)!;
          expect(spread.low).toBe(sorted[out]);
          expect(spread.high).toBe(sorted[sorted.length - 1 - out]);
          expect(spread.last).toBe(values[values.length - 1]);
          expect(spread.n).toBe(values.length);
        },
      ),
      { seed: 5 },
    );
  });
});

describe('closeMinute', () => {
  it('leaves out what was not measured and begins anew', () => {
    const sums = newMinuteSums(1);
    addToStats(sums.kpa, 300);
    sums.pumps[0]!.ranMs = 30_000;
    expect(closeMinute(sums, 60_000, [undefined])).toEqual({
      atMs: 60_000,
      kpa: { n: 1, mean: 300, low: 300, high: 300, last: 300 },
      pumps: [{ ranS: 30, heardS: 0, running: [] }],
    });
    expect(closeMinute(sums, 120_000, [true])).toEqual({
      atMs: 120_000,
      pumps: [{ ranS: 0, heardS: 0, running: [], callsForWater: true }],
    });
  });
});
