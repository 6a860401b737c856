import { expect, test } from 'vitest';
import { newBoot } from '../../../src/core/readings/boot.ts';
import {
  CONFLICT_CLEARS_AFTER_MS,
  conflictClearsMs,
  overlappingBoot,
  advanceConflict,
  recordConflict,
} from '../../../src/core/readings/conflict.ts';
import type { NewsItem } from '../../../src/core/readings/news.ts';
import { NOON } from '../../support/packs.ts';

const S = 1000;

function bootAt(boot: number, fromS: number, toS: number): ReturnType<typeof newBoot> {
  return { ...newBoot(boot, 0), fromMs: NOON + fromS * S, toMs: NOON + toS * S };
}

test.each([
  ['side by side', [0, 100], [101, 200], [201, 210], false],
  ['sixty seconds over each other', [0, 100], [40, 200], [90, 100], false],
  ['sixty-one', [0, 100], [39, 200], [90, 100], true],
  ['over each other long ago, and this pack past it', [0, 100], [20, 200], [201, 210], false],
] as const)('overlappingBoot: %s', (_, other, own, packed, is) => {
  const boots = [bootAt(1, other[0], other[1]), bootAt(2, own[0], own[1])];
  const span = { fromMs: NOON + packed[0] * S, toMs: NOON + packed[1] * S };
  expect(overlappingBoot(boots, boots[1]!, span) !== undefined).toBe(is);
});

test.each([
  ['a box restarts at 100 s with its clock an hour behind', [-7200, 100], [-3500, -3000], 100, false],
  [
    'a second box, its clock an hour behind, while the first measures on',
    [-7200, 400],
    [-3500, -3000],
    100,
    true,
  ],
] as const)('overlappingBoot: %s', (_, other, own, heardS, is) => {
  const boots = [
    { ...bootAt(1, other[0], other[1]), firstHeardMs: NOON - 7200 * S },
    { ...bootAt(2, own[0], own[1]), firstHeardMs: NOON + heardS * S },
  ];
  const span = { fromMs: NOON - 3000 * S, toMs: NOON - 2990 * S };
  expect(overlappingBoot(boots, boots[1]!, span) !== undefined).toBe(is);
});

test('a conflict is said once, lasts while signs come, and is over an hour after the last', () => {
  const news: NewsItem[] = [];
  let standing = recordConflict(undefined, 'barn', NOON, { boot: 1 }, news);
  standing = recordConflict(standing, 'barn', NOON + 50 * S, { boot: 1 }, news);
  expect(conflictClearsMs(standing)).toBe(NOON + 50 * S + CONFLICT_CLEARS_AFTER_MS);
  expect(advanceConflict(standing, 'barn', NOON + CONFLICT_CLEARS_AFTER_MS, news)).toBe(standing);
  expect(advanceConflict(standing, 'barn', NOON + 51 * S + CONFLICT_CLEARS_AFTER_MS, news)).toBeUndefined();
  expect(news.map(({ atMs, node }) => [(atMs - NOON) / S, node.news])).toEqual([
    [0, 'conflict'],
    [3650, 'conflict-over'],
  ]);
  expect(conflictClearsMs(undefined)).toBe(Number.POSITIVE_INFINITY);
});
