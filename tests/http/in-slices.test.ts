import { expect, test } from 'vitest';
import { mapInSlices } from '../../src/http/in-slices.ts';

test('the order is that of the items', async () => {
  expect(await mapInSlices([3, 1, 2], (n) => n * 10)).toEqual([30, 10, 20]);
  expect(await mapInSlices([3, 1], async (n) => Promise.resolve(-n))).toEqual([-3, -1]);
  expect(await mapInSlices([], () => 1)).toEqual([]);
});

test('others have their turn between slices', async () => {
  const seen: string[] = [];
  const slow = (n: number): number => {
    const untilMs = performance.now() + 6;
    while (performance.now() < untilMs);
    seen.push(`item ${n}`);
    return n;
  };
  setImmediate(() => seen.push('other'));
  await mapInSlices([1, 2, 3], slow);
  // Each item takes longer than a slice: somebody else comes after the first of them.
  expect(seen).toEqual(['item 1', 'other', 'item 2', 'item 3']);
});

test('an item that fails ends it with its error', async () => {
  const fails = (n: number): number => {
    if (n === 2) throw new RangeError('two');
    return n;
  };
  await expect(mapInSlices([1, 2, 3], fails)).rejects.toThrow('two');
});
