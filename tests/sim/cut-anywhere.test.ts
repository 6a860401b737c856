/**
 * A stretch of a well's time fed whole, reading by reading, and in any pieces with a save between
 * any two gives the same.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { feedInChunks } from './support/cut.ts';
import type { Plan } from './support/scenario.ts';

const START_MS = Date.UTC(2026, 2, 7, 18, 3, 20);
const HOUR_MS = 3_600_000;

const plan = (notes: Partial<Plan>): Plan => ({
  seed: 5,
  hours: 8,
  everyS: 5,
  fault: 'stuck',
  acts: [
    { fraction: 0.2, act: 'pinned' },
    { fraction: 0.5, act: 'acknowledged' },
    { fraction: 0.6, act: 'card' },
    { fraction: 0.7, act: 'visit' },
  ],
  ...notes,
});
const endOf = ({ hours }: Plan): number => START_MS + (hours + 1) * HOUR_MS;

describe('an engine cut anywhere', () => {
  it.each([
    ['contacts that stick', plan({})],
    ['a tank that loses its air', plan({ fault: 'air-lost', everyS: 2, hours: 3 })],
  ])('says the same saved after every single reading: %s', (_what, made) => {
    const whole = feedInChunks(made, [endOf(made)], () => false);
    const cuts = Array.from(
      { length: (endOf(made) - START_MS) / 1000 / made.everyS },
      (_, i) => START_MS + i * made.everyS * 1000,
    );
    expect(feedInChunks(made, [...cuts, endOf(made)], () => true)).toEqual(whole);
    expect(whole.some((line) => line.includes('"alarm"'))).toBe(true);
  });

  it('says the same in any pieces', () => {
    fc.assert(
      fc.property(
        fc.record({
          seed: fc.nat(1000),
          everyS: fc.constantFrom(1, 3, 10),
          fault: fc.constantFrom('none', 'stuck', 'air-lost'),
        }),
        fc.array(fc.integer({ min: 0, max: 4 * HOUR_MS }), { maxLength: 60 }),
        fc.array(fc.boolean(), { minLength: 60, maxLength: 60 }),
        (notes, offsets, saves) => {
          const made = plan({ ...notes, hours: 3 });
          const cuts = [...offsets.map((ms) => START_MS - 2000 + ms).sort((a, b) => a - b), endOf(made)];
          expect(feedInChunks(made, cuts, (cut) => saves[cut] === true)).toEqual(
            feedInChunks(made, [endOf(made)], () => false),
          );
        },
      ),
      { seed: 99, numRuns: 12, endOnFailure: true },
    );
  });
});
