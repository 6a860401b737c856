/** Lists of whole numbers come back exactly, whatever predictor and width they were given. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newSink, written } from '../../src/store/bytes.ts';
import { PREDICTORS, restore, surprise } from '../../src/store/predict.ts';
import { NARROW, WIDE, bitsOf, putCoded, takeCoded } from '../../src/store/range-code.ts';
import { putWholes, takeWholes } from '../../src/store/whole-list.ts';

const whole = fc.oneof(
  fc.integer({ min: -3, max: 3 }),
  fc.integer({ min: -200, max: 5000 }),
  fc.maxSafeInteger().map((n) => Math.trunc(n / 8)),
);
const list = fc.array(whole, { maxLength: 300 }).map((numbers) => Float64Array.from(numbers, (n) => n + 0));

test('lists come back, one behind the other', () => {
  fc.assert(
    fc.property(list, list, fc.integer({ min: 1, max: 1000 }), (a, b, unit) => {
      const scaled = a.map((n) => Math.trunc(n / 1024) * unit);
      const sink = newSink(8);
      putWholes(sink, scaled, scaled.length);
      putWholes(sink, b, b.length);
      const source = { bytes: Buffer.from(written(sink)), at: 0 };
      for (const wanted of [scaled, b]) {
        const got = new Float64Array(wanted.length);
        takeWholes(source, got, wanted.length);
        expect(got.map((n) => n + 0)).toEqual(wanted.map((n) => n + 0));
      }
      expect(source.at).toBe(source.bytes.length);
    }),
    { seed: 11, numRuns: 500 },
  );
});

test.each([
  ['down', { up: 1, down: 100 }, 100],
  ['up', { up: 100, down: 1 }, 0.01],
])('numbers are scaled, %s', (_, scale, one) => {
  const sink = newSink(8);
  putWholes(sink, Float64Array.of(1, 3, 791), 3);
  const got = new Float64Array(3);
  takeWholes({ bytes: Buffer.from(written(sink)), at: 0 }, got, 3, scale);
  expect(got[0]).toBe(one);
  expect(got[2]).toBe(one === 100 ? 79_100 : 7.91);
});

test('every predictor gives the numbers back', () => {
  fc.assert(
    fc.property(list, fc.integer({ min: 0, max: PREDICTORS - 1 }), (numbers, which) => {
      const surprises = new Float64Array(numbers.length);
      surprise(which, numbers, surprises, numbers.length);
      expect(surprises.every(Number.isInteger)).toBe(true);
      restore(which, surprises, surprises.length);
      expect(surprises).toEqual(numbers);
    }),
    { seed: 12, numRuns: 500 },
  );
});

test('both widths give the numbers back, and their cost is foretold', () => {
  fc.assert(
    fc.property(list, fc.constantFrom(NARROW, WIDE), (numbers, width) => {
      const n = numbers.length;
      const sink = newSink(8);
      putCoded(sink, numbers, n, width);
      const bytes = Buffer.from(written(sink));
      const got = new Float64Array(n);
      takeCoded({ bytes, at: 0 }, got, n);
      expect(got.map((it) => it + 0)).toEqual(numbers);
      if (n > 0) expect(bytes.length * 8).toBeLessThan(2 * bitsOf(numbers, n, n, width) + 400);
    }),
    { seed: 13, numRuns: 500 },
  );
});

test('a list of one number takes no bytes for each', () => {
  const sink = newSink(8);
  putWholes(sink, new Float64Array(60_000).fill(-77), 60_000);
  expect(written(sink).length).toBeLessThan(16);
});

test('two numbers of unequal shares come within a per cent of their entropy', () => {
  const n = 60_000;
  const numbers = Float64Array.from({ length: n }, (_, i) => (i % 10 === 0 ? 1 : 0));
  const sink = newSink(8);
  putCoded(sink, numbers, n, NARROW);
  const entropyBits = n * -(0.1 * Math.log2(0.1) + 0.9 * Math.log2(0.9));
  expect(written(sink).length * 8).toBeLessThan(entropyBits * 1.01 + 200);
});

test('spoilt bytes are refused or give other numbers, and never hang', () => {
  const numbers = Float64Array.from({ length: 300 }, (_, i) => ((i * 7919) % 500) - 200);
  const sink = newSink(8);
  putWholes(sink, numbers, 300);
  const good = Buffer.from(written(sink));
  fc.assert(
    fc.property(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
      const spoilt = Buffer.from(good);
      spoilt[at] = spoilt[at]! ^ flip;
      const got = new Float64Array(300);
      try {
        takeWholes({ bytes: spoilt, at: 0 }, got, 300);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
      }
      expect(got).toHaveLength(300);
    }),
    { seed: 14, numRuns: 1000 },
  );
});
