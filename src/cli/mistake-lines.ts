/**
 * What is wrong in a table or a list, for people: a mistake that many rows share is one line with
 * its count and the first of its rows. A column of a spreadsheet that is off by one gives
 * thousands.
 */
import { texts } from './texts.ts';

export interface RowMistake {
  /** The line of the table, or the place in the list. */
  line: number;
  well?: string;
  reason: string;
}

/** How a row is called: "line 4", "3,000 lines". */
export interface RowWords {
  one: (at: number) => string;
  many: (count: number) => string;
}

/** So many equal mistakes still have a line each, and with it the name of each well. */
const MAX_ALONE = 3;
/** Enough to find the column in the file. */
const FIRST_LINES = 5;

/** In the order of the first row of each. */
export function mistakeLines(mistakes: readonly RowMistake[], words: RowWords): string[] {
  const equal = new Map<string, RowMistake[]>();
  for (const mistake of mistakes.toSorted((a, b) => a.line - b.line)) {
    const rows = equal.get(mistake.reason) ?? [];
    rows.push(mistake);
    equal.set(mistake.reason, rows);
  }
  const groups = [...equal].flatMap(([reason, rows]) =>
    rows.length > MAX_ALONE
      ? [{ line: rows[0]!.line, text: groupText(reason, rows, words) }]
      : rows.map((row) => ({ line: row.line, text: `${rowPlace(row, words)}: ${reason}` })),
  );
  return groups.toSorted((a, b) => a.line - b.line).map(({ text }) => text);
}

function groupText(reason: string, rows: readonly RowMistake[], { many }: RowWords): string {
  const first = rows.slice(0, FIRST_LINES).map(({ line }) => line);
  const more = rows.length > first.length;
  const where = more ? texts().firstRows(first.join(', ')) : first.join(', ');
  return `${many(rows.length)} (${where}): ${reason}`;
}

/** "line 4", "card 4, mill". */
export function rowPlace({ line, well }: Omit<RowMistake, 'reason'>, { one }: RowWords): string {
  return well === undefined ? one(line) : `${one(line)}, ${well}`;
}
