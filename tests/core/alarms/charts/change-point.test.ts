import { describe, expect, it } from 'vitest';
import { changePoint } from '../../../../src/core/alarms/charts/change-point.ts';
import { autoregressive } from '../../../support/normals.ts';

describe('changePoint', () => {
  it.each<[string, number[], number]>([
    ['the first value after a step', [0, 0, 0, 1, 1, 1], 3],
    ['not a value that is off alone', [0, 5, 0, 0, 0, 0, 1, 1, 1], 6],
    ['from the first where all are off', [1, 1, 1], 0],
    ['none where none is', [0, 0.2, -0.3], 3],
    ['none where it is over', [1, 1, 0, 0, 0], 5],
    ['where a drift passes half of the shift', [0, 0.2, 0.4, 0.6, 0.8, 1], 3],
    ['of none', [], 0],
  ])('%s', (_name, deviations, from) => {
    expect(changePoint(deviations, 1)).toBe(from);
  });

  it('lies within a few values of a step in noise, and its own value is past half of it', () => {
    let near = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const next = autoregressive(seed, 0.4);
      const deviations = Array.from({ length: 40 }, (_, at) => (at < 25 ? 0 : 1) + 0.25 * next());
      const from = changePoint(deviations, 1);
      expect(deviations[from]).toBeGreaterThan(0.5);
      if (Math.abs(from - 25) <= 2) near++;
    }
    expect(near).toBeGreaterThanOrEqual(90);
  });
});
