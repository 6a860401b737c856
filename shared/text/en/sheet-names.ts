/** Names of the sheets that labels are printed on. */
import type { Sheet } from '../../labels/sheets.ts';

const PAPERS: Readonly<Record<Sheet['paper'], string>> = { a4: 'A4', letter: 'Letter' };

export function sheetName({ paper, columns, rows, stockSize }: Sheet): string {
  const count = columns * rows;
  if (stockSize !== undefined) return `Label stock ${stockSize}, ${count} on ${PAPERS[paper]} paper`;
  return count > 2
    ? `Plain ${PAPERS[paper]} paper, ${count} labels to cut out`
    : `Plain ${PAPERS[paper]} paper, ${count} large labels to cut out`;
}
