/** The coarsest decimal step that makes each value again to the last bit. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { findStep, fromInteger, toInteger } from '../../../src/store/series/decimal.ts';

test.each([
  ['current to 0.01 A', [0.02, 7.91, 0], { decimals: 2, single: false }],
  ['pressure to 100 Pa', [312_400, 313_100, 0], { decimals: -2, single: false }],
  ['whole thousands', [3000, 12_000], { decimals: -3, single: false }],
  ['whole numbers', [1, 12, -7], { decimals: 0, single: false }],
  ['single floats of hundredths', [Math.fround(7.91), Math.fround(0.02)], { decimals: 2, single: true }],
  ['a millionth', [0.000001, 2], { decimals: 6, single: false }],
  ['nothing', [], { decimals: -3, single: false }],
  ['a third', [1, 1 / 3], undefined],
  ['negative zero', [1, -0], undefined],
  ['no number', [1, Number.NaN], undefined],
  ['infinity', [1, Number.POSITIVE_INFINITY], undefined],
  ['fine beside large', [0.000001, 2 ** 45], undefined],
])('of %s', (_, values, wanted) => {
  const step = findStep(values, values.length);
  expect(step && { decimals: step.decimals, single: step.single }).toEqual(wanted);
});

test('faults are left out', () => {
  expect(findStep([1, Number.NaN, 2.5], 3, [0, 2, 0])).toEqual({
    decimals: 1,
    up: 10,
    down: 1,
    single: false,
  });
});

test('a step found makes every value again', () => {
  const value = fc.oneof(
    fc.integer({ min: -(10 ** 9), max: 10 ** 9 }).map((n) => n / 10 ** (Math.abs(n) % 7)),
    fc.float({ noNaN: true }),
    fc.double(),
  );
  fc.assert(
    fc.property(fc.array(value, { maxLength: 20 }), (values) => {
      const step = findStep(values, values.length);
      if (!step) return;
      for (const it of values) expect(fromInteger(toInteger(it, step), step) + 0).toBe(it);
    }),
    { seed: 5, numRuns: 2000 },
  );
});
