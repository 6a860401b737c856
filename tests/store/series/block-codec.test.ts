/** A block is the readings again, to the last bit, and small where sensors are steady. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeBlock, encodeBlock } from '../../../src/store/series/block-codec.ts';
import type { Series } from '../../../src/store/store.ts';

const NOON = Date.UTC(2026, 2, 2, 12);

function series(times: ArrayLike<number>, values: ArrayLike<number>, faults?: ArrayLike<number>): Series {
  const fault = faults ? Uint8Array.from(faults) : new Uint8Array(times.length);
  return {
    n: times.length,
    timeMs: Float64Array.from(times),
    value: Float64Array.from(values).map((v, i) => (fault[i] === 0 ? v : Number.NaN)),
    fault,
  };
}

const again = (it: Series): Series => decodeBlock(Buffer.from(encodeBlock(it)));

/** A seeded noise, about normal, of spread 1. */
function noise(seed: number): () => number {
  let state = seed;
  const next = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  return () => (next() + next() + next() + next() - 2) * Math.sqrt(3);
}

test('readings come back as they were', () => {
  const reading = fc.record({
    step: fc.oneof(
      { weight: 8, arbitrary: fc.constant(1000) },
      { weight: 2, arbitrary: fc.integer({ min: 0, max: 5_000_000_000 }) },
    ),
    value: fc.oneof(
      fc.integer({ min: -3, max: 900 }).map((n) => n / 100),
      fc.integer({ min: 0, max: 10_000 }).map((n) => n * 100),
      fc.float({ noNaN: true, noDefaultInfinity: true }),
      fc.double(),
      fc.constantFrom(0, -0, 2 ** 52, -(2 ** 50)),
    ),
    fault: fc.constantFrom(0, 0, 0, 0, 1, 2, 3),
  });
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 200 }), fc.boolean(), (list, single) => {
      let t = NOON;
      const times = list.map(({ step }) => (t += step));
      const it = series(
        times,
        list.map(({ value }) => (single ? Math.fround(Math.round(value * 100) / 100) : value)),
        list.map(({ fault }) => fault),
      );
      expect(again(it)).toEqual(it);
    }),
    { seed: 7, numRuns: 500 },
  );
});

test.each([
  ['no readings', series([], [])],
  ['one', series([NOON], [7.91])],
  ['one fault', series([NOON], [0], [3])],
  [
    'all the same',
    series(
      Array.from({ length: 5000 }, (_, i) => NOON + i),
      new Float64Array(5000).fill(0.02),
    ),
  ],
  ['all of one time', series([NOON, NOON, NOON], [1, 2, 3])],
  ['times in fractions of ms', series([NOON, NOON + 0.5, NOON + 1.25], [1, 2, 3])],
  ['negative times', series([-5000, -4000, -3000], [1, 2, 3])],
  ['singles', series([1, 2, 3], [Math.fround(7.91), Math.fround(0.3), 5])],
  ['a value that needs all bits', series([1, 2, 3], [0.1 + 0.2, 1 / 3, 1e300])],
  ['steps of thousands', series([1, 2, 3], [1000, 5000, -7000])],
  ['large jumps', series([1, 2, 3, 4], [0, 2 ** 49, -(2 ** 49), 0])],
])('%s come back', (_, it) => {
  expect(again(it)).toEqual(it);
});

describe('bytes a reading', () => {
  const n = 65_536;
  const size = (it: Series): number => encodeBlock(it).length / n;
  const even = Float64Array.from({ length: n }, (_, i) => NOON + i * 5000);
  const flat = new Float64Array(n).fill(7.9);

  test('of even times are next to none', () => {
    expect(size(series(even, flat))).toBeLessThan(0.002);
  });

  test('of times with a few holes are next to none', () => {
    const holes = even.map((t, i) => t + Math.floor(i / 9000) * 17_000);
    expect(size(series(holes, flat))).toBeLessThan(0.003);
  });

  test('of times that waver by 5 ms are near the 0.55 that they hold', () => {
    // log2(5 sqrt(2 pi e)) = 4.37 bits are in a normal spread of 5.
    const draw = noise(3);
    const wavering = even.map((t) => Math.round(t + draw() * 5));
    const it = series(wavering, flat);
    expect(size(it)).toBeLessThan(0.6);
    expect(again(it)).toEqual(it);
  });

  test('of noise of ten steps on a slow quantity are near the 0.67 that they hold', () => {
    // log2(10 sqrt(2 pi e)) = 5.37 bits.
    const draw = noise(4);
    const values = even.map((_, i) => 100 * Math.round(3500 + 400 * Math.sin(i / 3000) + draw() * 10));
    const it = series(even, values);
    expect(size(it)).toBeLessThan(0.7);
    expect(again(it)).toEqual(it);
  });

  test('of a current that rests or runs are those of its noise', () => {
    const draw = noise(5);
    const values = even.map((_, i) => Math.max(0, Math.round((i % 900 < 60 ? 791 : 1.5) + draw()) / 100));
    const it = series(even, values);
    expect(size(it)).toBeLessThan(0.3);
    expect(again(it)).toEqual(it);
  });
});

test.each([
  ['no bytes', (block: Buffer) => block.subarray(0, 0)],
  ['another version', (block: Buffer) => Buffer.concat([Buffer.of(9), block.subarray(1)])],
  ['a cut end', (block: Buffer) => block.subarray(0, block.length - 1)],
  ['one bit', (block: Buffer) => Buffer.from(block.map((byte, i) => (i === 20 ? byte ^ 1 : byte)))],
])('%s is refused', (_, spoil) => {
  const block = encodeBlock(series([NOON, NOON + 1000, NOON + 2000], [7.91, 7.92, 7.9]));
  expect(() => decodeBlock(spoil(block))).toThrow(/Cannot read block/);
});
