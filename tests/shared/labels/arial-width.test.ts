import { describe, expect, test } from 'vitest';
import { arialWidth } from '../../../shared/labels/arial-width.ts';

describe('arialWidth', () => {
  // Advances of Helvetica, whose widths Arial has: Adobe's metrics of the 14 core fonts of PDF,
  // from memory.
  test.each<[text: string, bold: boolean, thousandths: number]>([
    [' ', false, 278],
    ['A', false, 667],
    ['W', false, 944],
    ['i', false, 222],
    ['m', false, 833],
    ['0', false, 556],
    ['A', true, 722],
    ['a', true, 556],
    ['i', true, 278],
    ['m', true, 889],
    ['40/60 psi', false, 5 * 278 + 4 * 556 + 556 + 500 + 222 - 278 * 3],
  ])('%j, bold %s', (text, bold, thousandths) =>
    expect(arialWidth(text, { size: 1000, bold })).toBeCloseTo(thousandths, 6),
  );

  test('a letter that is not known is taken for a wide one', () => {
    expect(arialWidth('井', { size: 1 })).toBeGreaterThan(arialWidth('M', { size: 1 }));
  });
});
