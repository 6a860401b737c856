/**
 * Text broken into rows by the width that it really has; a word that is longer than a row is broken
 * where it must be.
 */
export type MeasureWidth = (text: string, style: TextStyle) => number;

export interface TextStyle {
  /** Font size, mm. */
  size: number;
  bold?: boolean;
}

/**
 * Rows of at most `width` mm; the first one begins `indent` mm in. A no-break space is part of its
 * word.
 */
export function wrap(
  text: string,
  style: TextStyle,
  width: number,
  widthOf: MeasureWidth,
  indent = 0,
): string[] {
  const rows: string[] = [];
  let row = '';
  const room = (): number => width - (rows.length === 0 ? indent : 0);
  for (const word of text.split(/[ \n]+/u).filter((one) => one !== '')) {
    const longer = row === '' ? word : `${row} ${word}`;
    if (widthOf(longer, style) <= room()) {
      row = longer;
      continue;
    }
    if (row !== '' || (rows.length === 0 && indent > 0)) rows.push(row);
    row = word;
    while (widthOf(row, style) > room()) {
      const part = fittingCharacters(row, style, room(), widthOf);
      rows.push(row.slice(0, part));
      row = row.slice(part);
    }
  }
  return row === '' ? rows : [...rows, row];
}

/** How many characters fit; one at least, so that it comes to an end. */
function fittingCharacters(word: string, style: TextStyle, width: number, widthOf: MeasureWidth): number {
  let count = word.length - 1;
  while (count > 1 && widthOf(word.slice(0, count), style) > width) count--;
  return Math.max(1, count);
}

/** The first rows; where more would follow, the last one ends in dots. */
export function limitRows(rows: readonly string[], max: number): string[] {
  if (rows.length <= max) return [...rows];
  return rows.slice(0, max).map((row, i) => (i === max - 1 ? `${row.slice(0, -1)}…` : row));
}

/** One row of at most `width` mm. */
export function fitOneRow(text: string, style: TextStyle, width: number, widthOf: MeasureWidth): string {
  return widthOf(text, style) <= width
    ? text
    : `${text.slice(0, fittingCharacters(text, style, width - style.size, widthOf))}…`;
}
