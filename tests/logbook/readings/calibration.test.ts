import { expect, test } from 'vitest';
import {
  calibrationPoints,
  type CalibrationPoints,
  type ClampPair,
} from '../../../src/logbook/readings/calibration.ts';
import { twoPointCorrection } from '../../../src/core/domain/two-point.ts';

const pair = (readA: number, trueA: number): ClampPair => ({ readA, trueA });

test.each<[string, ClampPair[], number | undefined, CalibrationPoints]>([
  ['nothing was compared', [], 0, { is: 'none', reason: 'no-pair' }],
  [
    'one load, and the clamp dead at rest',
    [pair(8, 8.4)],
    0.02,
    {
      is: 'two',
      points: [
        [0.02, 0],
        [8, 8.4],
      ],
      usesZero: true,
    },
  ],
  ['one load, rest not known', [pair(8, 8.4)], undefined, { is: 'none', reason: 'one-load' }],
  ['something else on the clamp', [pair(8, 8.4)], 0.9, { is: 'none', reason: 'one-load' }],
  [
    'two loads apart',
    [pair(8, 8.4), pair(4, 4.1)],
    0.9,
    {
      is: 'two',
      points: [
        [4, 4.1],
        [8, 8.4],
      ],
      usesZero: false,
    },
  ],
  [
    'two loads that are nearly one: the newest',
    [pair(8, 8.4), pair(7.9, 8.2)],
    0.02,
    {
      is: 'two',
      points: [
        [0.02, 0],
        [7.9, 8.2],
      ],
      usesZero: true,
    },
  ],
  ['two loads the wrong way round', [pair(4, 8), pair(8, 7)], 0.02, { is: 'none', reason: 'does-not-rise' }],
  ['a meter that showed nothing', [pair(8, 0)], 0.02, { is: 'none', reason: 'does-not-rise' }],
])('%s', (_, pairs, restA, points) => {
  expect(calibrationPoints(pairs, restA)).toEqual(points);
});

test('the points lead through what the meter showed', () => {
  const found = calibrationPoints([pair(8, 8.4)], 0.02);
  const line = twoPointCorrection('current', found.is === 'two' ? found.points : []);
  if ('rule' in line) throw new Error(line.rule);
  const { gain, offset } = line.correction;
  expect(gain * 8 + offset).toBeCloseTo(8.4, 9);
  expect(gain * 0.02 + offset).toBeCloseTo(0, 9);
});
