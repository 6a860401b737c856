import { expect, test } from 'vitest';
import { checkClamp } from '../../../shared/readings/clamp-check.ts';

/** 2 % of 8 A is 0.16 A; one step of the meter comes to it. */
test.each<[string, string, number, number, string]>([
  ['the same', '8.0 A', 8, 0, 'agrees'],
  ['within 2 % and a tenth', '8.0 A', 8.25, 0, 'agrees'],
  ['beyond it', '8.0 A', 8.27, 0, 'off'],
  ['a finer meter allows less', '8.00 A', 8.18, 0, 'off'],
  ['the node’s own step comes to it', '8.00 A', 8.18, 0.05, 'agrees'],
  ['a meter without decimals allows an amp', '8 A', 9.1, 0, 'agrees'],
  ['too little', '8.0 A', 7.7, 0, 'off'],
  ['a clamp round both conductors', '8.0 A', 0.02, 0, 'off'],
  ['no unit', '8.0', 8, 0, 'no-meter'],
])('%s', (_, meter, clampA, stepA, is) => {
  expect(checkClamp(meter, clampA, stepA).is).toBe(is);
});

test('says by how much', () => {
  const found = checkClamp('8.0 A', 8.8);
  expect(
    found.is === 'no-meter' ? undefined : [found.differenceA.toFixed(2), found.differenceRatio.toFixed(2)],
  ).toEqual(['0.80', '0.10']);
});
