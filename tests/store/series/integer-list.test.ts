/** Lists of whole numbers come back exactly, whatever predictor and width they were given. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newByteSink, writtenBytes } from '../../../src/store/series/bytes.ts';
import { PREDICTOR_COUNT, restoreValues, computeResiduals } from '../../../src/store/series/predict.ts';
import {
  NARROW_BITS,
  WIDE_BITS,
  estimateBits,
  encodeIntegers,
  decodeIntegers,
} from '../../../src/store/series/entropy-code.ts';
import { writeIntegers, readIntegers } from '../../../src/store/series/integer-list.ts';

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
      const sink = newByteSink(8);
      writeIntegers(sink, scaled, scaled.length);
      writeIntegers(sink, b, b.length);
      const source = { bytes: Buffer.from(writtenBytes(sink)), offset: 0 };
      for (const wanted of [scaled, b]) {
        const got = new Float64Array(wanted.length);
        readIntegers(source, got, wanted.length);
        expect(got.map((n) => n + 0)).toEqual(wanted.map((n) => n + 0));
      }
      expect(source.offset).toBe(source.bytes.length);
    }),
    { seed: 11, numRuns: 500 },
  );
});

test.each([
  ['down', { up: 1, down: 100 }, 100],
  ['up', { up: 100, down: 1 }, 0.01],
])('numbers are scaled, %s', (_, scale, one) => {
  const sink = newByteSink(8);
  writeIntegers(sink, Float64Array.of(1, 3, 791), 3);
  const got = new Float64Array(3);
  readIntegers({ bytes: Buffer.from(writtenBytes(sink)), offset: 0 }, got, 3, scale);
  expect(got[0]).toBe(one);
  expect(got[2]).toBe(one === 100 ? 79_100 : 7.91);
});

test('every predictor gives the numbers back', () => {
  fc.assert(
    fc.property(list, fc.integer({ min: 0, max: PREDICTOR_COUNT - 1 }), (numbers, which) => {
      const surprises = new Float64Array(numbers.length);
      computeResiduals(which, numbers, surprises, numbers.length);
      expect(surprises.every(Number.isInteger)).toBe(true);
      restoreValues(which, surprises, surprises.length);
      expect(surprises).toEqual(numbers);
    }),
    { seed: 12, numRuns: 500 },
  );
});

test('both widths give the numbers back, and their cost is foretold', () => {
  fc.assert(
    fc.property(list, fc.constantFrom(NARROW_BITS, WIDE_BITS), (numbers, width) => {
      const n = numbers.length;
      const sink = newByteSink(8);
      encodeIntegers(sink, numbers, n, width);
      const bytes = Buffer.from(writtenBytes(sink));
      const got = new Float64Array(n);
      decodeIntegers({ bytes, offset: 0 }, got, n);
      expect(got.map((it) => it + 0)).toEqual(numbers);
      if (n > 0) expect(bytes.length * 8).toBeLessThan(2 * estimateBits(numbers, n, n, width) + 400);
    }),
    { seed: 13, numRuns: 500 },
  );
});

test('a list of one number takes no bytes for each', () => {
  const sink = newByteSink(8);
  writeIntegers(sink, new Float64Array(60_000).fill(-77), 60_000);
  expect(writtenBytes(sink).length).toBeLessThan(16);
});

test('two numbers of unequal shares come within a per cent of their entropy', () => {
  const n = 60_000;
  const numbers = Float64Array.from({ length: n }, (_, i) => (i % 10 === 0 ? 1 : 0));
  const sink = newByteSink(8);
  encodeIntegers(sink, numbers, n, NARROW_BITS);
  const entropyBits = n * -(0.1 * Math.log2(0.1) + 0.9 * Math.log2(0.9));
  expect(writtenBytes(sink).length * 8).toBeLessThan(entropyBits * 1.01 + 200);
});

test('spoilt bytes are refused or give other numbers, and never hang', () => {
  const numbers = Float64Array.from({ length: 300 }, (_, i) => ((i * 7919) % 500) - 200);
  const sink = newByteSink(8);
  writeIntegers(sink, numbers, 300);
  const good = Buffer.from(writtenBytes(sink));
  fc.assert(
    fc.property(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
      const spoilt = Buffer.from(good);
      spoilt[at] = spoilt[at]! ^ flip;
      const got = new Float64Array(300);
      try {
        readIntegers({ bytes: spoilt, offset: 0 }, got, 300);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
      }
      expect(got).toHaveLength(300);
    }),
    { seed: 14, numRuns: 1000 },
  );
});
