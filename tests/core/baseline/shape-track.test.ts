import { describe, expect, it } from 'vitest';
import { trackShape } from '../../../src/core/baseline/shape-track.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';

/** A run of 70 s at 8 A, readings 5 s apart, that ends as `last` says. */
function run(last: number[]): Cycle {
  const amps = [...Array.from({ length: 14 - last.length }, () => 8), ...last];
  const kpa = amps.map((_, at) => 276 + 10 * at);
  return {
    pump: 0,
    startedMs: 0,
    stoppedMs: 70_000,
    ranS: 70,
    amps: 8,
    readings: 14,
    flags: [],
    shape: { everyS: 5, amps, kpa },
  };
}

describe('the shape of a run', () => {
  it.each([
    ['a reading within which the pump stopped', [8, 3.1]],
    ['the rest that ended it, in the mean of its last step', [8, 0.13]],
    ['both', [3.1, 0.13]],
  ])('does not learn %s', (_name, last) => {
    const learned = trackShape(trackShape(undefined, run(last), 70), run(last), 70)!;
    const known = learned.amps.filter((amps) => amps !== null);
    expect(known.length).toBeGreaterThan(5);
    expect(known).toEqual(known.map(() => 8));
    expect(learned.kpa[0]).toBe(276);
  });

  it('learns that current falls towards the end', () => {
    const learned = trackShape(undefined, run([7.8, 7.6, 7.4, 7.2, 7.2]), 70)!;
    expect(Math.min(...learned.amps.filter((amps) => amps !== null))).toBeCloseTo(7.4, 0);
  });
});
