/** How far the water has sunk since the first runs: rows of levels at the ends of runs, m. */
import { expect, test } from 'vitest';
import { levelFall, type LevelMemory } from '../../../../src/core/alarms/pump/level-fall.ts';
import type { Scene } from '../../../../src/core/alarms/scene.ts';
import { T0 } from '../scene-kit.ts';

/** A fall reads the last minute of a scene alone. */
function at(levelM: number | undefined): Scene {
  const minute = { atMs: T0, pumps: [], ...(levelM !== undefined && { levelM: { mean: levelM } }) };
  return { atMs: T0 + 30_000, well: { minutes: [minute] } } as unknown as Scene;
}

test.each<[string, [number | undefined, number][], number | undefined]>([
  ['as ever', [[18, 60]], 0],
  [
    'nine metres down',
    [
      [18, 40],
      [9, 8],
    ],
    9,
  ],
  [
    'risen',
    [
      [18, 40],
      [20.5, 30],
    ],
    -2.5,
  ],
  [
    'a run that drew it down once',
    [
      [18, 45],
      [4, 1],
      [18, 2],
    ],
    0,
  ],
  [
    'while the first runs are taken',
    [
      [18, 30],
      [9, 10],
    ],
    undefined,
  ],
  [
    'too few since',
    [
      [18, 40],
      [9, 7],
    ],
    undefined,
  ],
  ['no level', [[undefined, 60]], undefined],
])('%s', (_name, rows, fallM) => {
  const memo: LevelMemory = {};
  let last: number | undefined;
  for (const [levelM, runs] of rows) for (let run = 0; run < runs; run++) last = levelFall(at(levelM), memo);
  expect(last).toBe(fallM);
});
