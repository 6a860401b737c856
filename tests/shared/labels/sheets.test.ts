import { describe, expect, test } from 'vitest';
import { labelPositions, SHEETS } from '../../../shared/labels/sheets.ts';
import { sheetName } from '../../../shared/text/en/sheet-names.ts';

describe('SHEETS', () => {
  test.each(SHEETS.map((sheet) => [sheetName(sheet), sheet] as const))(
    '%s: every label lies on the page, none on another',
    (_name, sheet) => {
      const { columns, rows, label, page, cutLines } = sheet;
      const places = labelPositions(sheet, columns * rows, 1);
      const margin = cutLines ? 9.99 : 0;
      for (const { x, y, page: on } of places) {
        expect(on).toBe(0);
        expect(x).toBeGreaterThanOrEqual(margin);
        expect(y).toBeGreaterThanOrEqual(margin);
        expect(x + label.w).toBeLessThanOrEqual(page.w - margin + 0.001);
        expect(y + label.h).toBeLessThanOrEqual(page.h - margin + 0.001);
      }
      const overlap = places.some((a, i) =>
        places.some(
          (b, j) => i < j && Math.abs(a.x - b.x) < label.w - 0.001 && Math.abs(a.y - b.y) < label.h - 0.001,
        ),
      );
      expect(overlap).toBe(false);
    },
  );

  // As these two are laid out commonly: 10 to a Letter sheet leave 0.156 in at the sides and 1/2 in
  // above; 8 to an A4 sheet 4.65 and 13.1 mm.
  test.each([
    ['letter-10-stock', 3.97, 12.7, 106.36],
    ['letter-6-stock', 3.97, 12.7, 106.36],
    ['a4-8-stock', 4.65, 13.1, 101.6],
    ['a4-6-stock', 4.65, 8.85, 101.6],
  ])('%s begins %d mm from the left and %d mm from the top', (id, left, top, pitch) => {
    const sheet = SHEETS.find((one) => one.id === id)!;
    expect(sheet.left).toBeCloseTo(left, 1);
    expect(sheet.top).toBeCloseTo(top, 1);
    expect(sheet.pitch).toBeCloseTo(pitch, 1);
  });
});

test('places go on row by row from the first free one, and over to the next page', () => {
  const sheet = SHEETS.find(({ id }) => id === 'a4-8-stock')!;
  expect(labelPositions(sheet, 3, 7).map(({ page, x, y }) => [page, Math.round(x), Math.round(y)])).toEqual([
    [0, 5, 216],
    [0, 106, 216],
    [1, 5, 13],
  ]);
  expect(labelPositions(sheet, 0, 1)).toEqual([]);
});
