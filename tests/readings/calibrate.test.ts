import { describe, expect, test } from 'vitest';
import { corrected, twoPointCorrection } from '../../src/readings/calibrate.ts';

describe('twoPointCorrection: a line through two points', () => {
  const rows: [string, [number, number][], number, number][] = [
    [
      'a gauge that reads 5 % high',
      [
        [0, 0],
        [105, 100],
      ],
      210,
      200,
    ],
    [
      'a transducer with an offset',
      [
        [10_000, 0],
        [410_000, 400_000],
      ],
      210_000,
      200_000,
    ],
    [
      'points the other way round',
      [
        [410, 400],
        [10, 0],
      ],
      210,
      200,
    ],
    [
      'a clamp that sits the wrong way',
      [
        [-8, 8],
        [-4, 4],
      ],
      -6,
      6,
    ],
  ];
  test.each(rows)('%s', (_, points, read, truth) => {
    expect(corrected(twoPointCorrection(points), read)).toBeCloseTo(truth, 9);
  });

  test.each([
    ['one point', [[1, 1]]],
    [
      'both read the same',
      [
        [5, 1],
        [5, 2],
      ],
    ],
    [
      'a point that is no number',
      [
        [0, Number.NaN],
        [1, 1],
      ],
    ],
    [
      'a point at infinity',
      [
        [0, 0],
        [Number.POSITIVE_INFINITY, 1],
      ],
    ],
  ] as [string, [number, number][]][])('%s is refused', (_, points) => {
    expect(() => twoPointCorrection(points)).toThrow(/^Cannot calibrate: /);
  });
});
