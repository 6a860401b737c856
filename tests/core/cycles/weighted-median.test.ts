import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { medianSorted } from 'simple-statistics';
import { newTally, addToTally, tallyMedian } from '../../../src/core/cycles/weighted-median.ts';

describe('tallyMedian', () => {
  it('is the median of readings in steps of 0.01 A, checked against simple-statistics', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 1500 }), { minLength: 1, maxLength: 300 }),
        (hundredths) => {
          const amps = hundredths.map((h) => h / 100);
          const tally = newTally();
          for (const a of amps) addToTally(tally, a, 1);
          expect(tallyMedian(tally)).toBeCloseTo(medianSorted([...amps].sort((a, b) => a - b)), 9);
        },
      ),
      { seed: 11 },
    );
  });

  it('weighs a value by the time it held', () => {
    const tally = newTally();
    addToTally(tally, 8, 60);
    addToTally(tally, 5, 10);
    addToTally(tally, 9, 20);
    expect(tallyMedian(tally)).toBe(8);
  });

  it('stays small and within a step for readings that never repeat', () => {
    const tally = newTally();
    const values = Array.from({ length: 20_000 }, (_, i) => 7 + ((i * 7919) % 20_011) / 20_011);
    for (const v of values) addToTally(tally, v, 1);
    expect(tally.keys.length).toBeLessThanOrEqual(512);
    expect(Math.abs(tallyMedian(tally)! - medianSorted(values.sort((a, b) => a - b)))).toBeLessThanOrEqual(
      tally.step,
    );
  });

  it('is absent where nothing was counted', () => {
    expect(tallyMedian(newTally())).toBeUndefined();
  });
});
