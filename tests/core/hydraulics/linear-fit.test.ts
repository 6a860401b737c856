import { describe, expect, test } from 'vitest';
import { fitLine, lineValueAt } from '../../../src/core/hydraulics/linear-fit.ts';

describe('lineThrough', () => {
  test('finds a line that is there', () => {
    const line = fitLine([0, 1, 2, 5], [1, 3, 5, 11])!;
    expect(line.slope).toBeCloseTo(2, 12);
    expect(lineValueAt(line, 10)).toBeCloseTo(21, 12);
    expect(line.slopeError).toBeCloseTo(0, 9);
  });
  // Least squares by hand: y = 0.5 x + 2/3 through (0,1) (1,1) (2,2).
  test('is the least-squares line', () => {
    const line = fitLine([0, 1, 2], [1, 1, 2])!;
    expect(line.slope).toBeCloseTo(0.5, 12);
    expect(lineValueAt(line, 0)).toBeCloseTo(5 / 6, 12);
    expect(line.slopeError).toBeCloseTo(Math.sqrt(1 / 6 / 2), 12);
  });
  test('takes only the points asked for', () => {
    expect(fitLine([0, 1, 2, 3], [9, 1, 2, 9], 1, 3)!.slope).toBe(1);
  });
  test.each([
    ['one point', [1], [1]],
    ['points above each other', [1, 1], [1, 2]],
  ])('is not there for %s', (_, x, y) => {
    expect(fitLine(x, y)).toBeUndefined();
  });
});
