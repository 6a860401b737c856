import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BASE_CHANNELS } from '../../../src/core/domain/channels.ts';
import { twoPointCorrection } from '../../../src/core/domain/two-point.ts';

type Points = [[number, number], [number, number]];
const pair = (a: number, b: number, c: number, d: number): Points => [
  [a, b],
  [c, d],
];

describe('twoPointCorrection: a line through two points', () => {
  test.each<[string, string, Points, { read: number; truth: number }]>([
    ['a gauge that reads 5 % high', 'pressure', pair(0, 0, 105, 100), { read: 210, truth: 200 }],
    [
      'a transducer with an offset',
      'pressure',
      pair(10_000, 0, 410_000, 400_000),
      { read: 210_000, truth: 200_000 },
    ],
    ['points the other way round', 'pressure', pair(410, 400, 10, 0), { read: 210, truth: 200 }],
    ['a clamp of ten times the ratio', 'p2/current', pair(0, 0, 80, 8), { read: 40, truth: 4 }],
    ['a voltage that reads 5 V high', 'voltage', pair(125, 120, 245, 240), { read: 235, truth: 230 }],
    ['a gain of just 100', 'current', pair(0, 0, 0.08, 8), { read: 0.04, truth: 4 }],
  ])('%s', (_, channel, points, { read, truth }) => {
    const line = twoPointCorrection(channel, points);
    if ('rule' in line) throw new Error(line.rule);
    expect(line.correction.gain * read + line.correction.offset).toBeCloseTo(truth, 9);
  });

  test.each<[string, [number, number][], string]>([
    ['one point', [[1, 1]], 'must be two pairs'],
    ['both read the same', pair(5, 1, 5, 2), 'a gain from 0.01 to 100'],
    ['a clamp that sits the wrong way', pair(-8, 8, -4, 4), 'a gain from 0.01 to 100'],
    ['a point that is no number', pair(0, Number.NaN, 1, 1), 'a gain from 0.01 to 100'],
    ['a point at infinity', pair(0, 0, Number.POSITIVE_INFINITY, 1), 'a gain from 0.01 to 100'],
    ['readings so near that the gain overflows', pair(0, 0, 5e-324, 1), 'a gain from 0.01 to 100'],
    ['a span that overflows', pair(-1e308, 0, 1e308, 1), 'a gain from 0.01 to 100'],
    ['a gain over 100', pair(0, 0, 1, 101), 'a gain from 0.01 to 100'],
    ['a gain under 1/100', pair(0, 0, 1000, 9), 'a gain from 0.01 to 100'],
    ['an offset over the channel’s bounds', pair(0, 1001, 1, 1002), 'an offset from -1000 to 1000'],
    ['an offset under the channel’s bounds', pair(1001, 0, 1002, 1), 'an offset from -1000 to 1000'],
  ])('%s is no line to correct by', (_, points, rule) => {
    expect(twoPointCorrection('current', points)).toMatchObject({
      rule: expect.stringContaining(rule) as string,
    });
  });

  test('a channel that the contract does not have is refused', () => {
    expect(twoPointCorrection('amps', pair(0, 0, 1, 1))).toMatchObject({ value: 'amps' });
  });

  test('any points give a finite line or a rule', () => {
    const point = fc.tuple(fc.double(), fc.double());
    fc.assert(
      fc.property(fc.constantFrom(...BASE_CHANNELS), point, point, (channel, one, other) => {
        const line = twoPointCorrection(channel, [one, other]);
        if ('rule' in line) return;
        expect(line.correction.gain).toBeGreaterThanOrEqual(0.01);
        expect(line.correction.gain).toBeLessThanOrEqual(100);
        expect(Number.isFinite(line.correction.offset)).toBe(true);
      }),
      { seed: 11, numRuns: 2000 },
    );
  });
});
