/**
 * Sheets that labels are printed on, by their dimensions alone: label stock as it is common (no
 * source), and plain paper with lines to cut along, which keeps 10 mm from the edges that no home
 * printer reaches. All in mm; labels are counted row by row from the top left.
 */
export interface Sheet {
  id: string;
  /** Of one label on stock, in the unit that it is sold by. */
  stockSize?: string;
  /** Which named page of print.css it is. */
  paper: 'a4' | 'letter';
  page: Size;
  label: Size;
  columns: number;
  rows: number;
  /** From the page's edge to the first label. */
  left: number;
  top: number;
  /** From one label's left edge to the next one's; rows touch. */
  pitch: number;
  /** Plain paper: lines to cut along and a bar to measure. */
  cutLines?: true;
}

export interface Size {
  w: number;
  h: number;
}

const INCH = 25.4;
/** ISO 216, and 8-1/2 by 11 in. */
const PAGES = { a4: { w: 210, h: 297 }, letter: { w: 8.5 * INCH, h: 11 * INCH } } as const;
/** What no home printer reaches. */
const MARGIN = 10;

export const SHEETS: readonly Sheet[] = [
  plainSheet('letter', 2, 4),
  plainSheet('a4', 2, 4),
  stockSheet('letter', { w: 4 * INCH, h: 2 * INCH, columns: 2, rows: 5, gap: 0.1875 * INCH }, '4 × 2 in'),
  stockSheet(
    'letter',
    { w: 4 * INCH, h: (10 / 3) * INCH, columns: 2, rows: 3, gap: 0.1875 * INCH },
    '4 × 3-1/3 in',
  ),
  stockSheet('a4', { w: 99.1, h: 67.7, columns: 2, rows: 4, gap: 2.5 }, '99.1 × 67.7 mm'),
  stockSheet('a4', { w: 99.1, h: 93.1, columns: 2, rows: 3, gap: 2.5 }, '99.1 × 93.1 mm'),
  plainSheet('letter', 1, 2),
  plainSheet('a4', 1, 2),
];

interface Stock {
  w: number;
  h: number;
  columns: number;
  rows: number;
  gap: number;
}

/** Label stock is cut in the middle of its page. */
function stockSheet(paper: Sheet['paper'], { w, h, columns, rows, gap }: Stock, size: string): Sheet {
  const page = PAGES[paper];
  return {
    id: `${paper}-${columns * rows}-stock`,
    stockSize: size,
    paper,
    page,
    label: { w, h },
    columns,
    rows,
    left: (page.w - columns * w - (columns - 1) * gap) / 2,
    top: (page.h - rows * h) / 2,
    pitch: w + gap,
  };
}

function plainSheet(paper: Sheet['paper'], columns: number, rows: number): Sheet {
  const page = PAGES[paper];
  const label = { w: (page.w - 2 * MARGIN) / columns, h: Math.floor((page.h - 2 * MARGIN) / rows) };
  const perPage = columns * rows;
  return {
    id: `${paper}-${perPage}-plain`,
    paper,
    page,
    label,
    columns,
    rows,
    left: MARGIN,
    top: MARGIN,
    pitch: label.w,
    cutLines: true,
  };
}

/**
 * The place of each label: which page, and its top left corner on it. `first` counts from 1: places
 * before it are used up already.
 */
export function labelPositions(
  sheet: Sheet,
  count: number,
  first: number,
): { page: number; x: number; y: number }[] {
  const perPage = sheet.columns * sheet.rows;
  return Array.from({ length: count }, (_, i) => {
    const at = first - 1 + i;
    const cell = at % perPage;
    return {
      page: Math.floor(at / perPage),
      x: sheet.left + (cell % sheet.columns) * sheet.pitch,
      y: sheet.top + Math.floor(cell / sheet.columns) * sheet.label.h,
    };
  });
}
