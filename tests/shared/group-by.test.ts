import { expect, test } from 'vitest';
import { groupBy } from '../../shared/group-by.ts';

test('groupBy keeps the order of keys and of items within them, and a missing key is one', () => {
  const items = [{ well: 'mill', n: 1 }, { n: 2 }, { well: 'barn', n: 3 }, { well: 'mill', n: 4 }];
  expect([...groupBy(items, ({ well }) => well)].map(([well, of]) => [well, of.map(({ n }) => n)])).toEqual([
    ['mill', [1, 4]],
    [undefined, [2]],
    ['barn', [3]],
  ]);
});
