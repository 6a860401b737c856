/**
 * Comma-separated values after RFC 4180: quoted cells with commas, quotes and line ends in them, CRLF or LF, a byte order mark before the
 * first cell. A quote within a cell that does not begin with one is a quote and nothing more (people write 6" for a casing). What is
 * wrong is told with its line.
 */

export interface CsvRow {
  /** Where it begins; the first line is 1. */
  line: number;
  cells: string[];
  /** What is wrong with it; its cells are then not to be used. */
  problem?: string;
}

const BYTE_ORDER_MARK = '\uFEFF';

/** All rows; empty lines are none. A quote that is never closed makes the rest of the text one bad row. */
export function readCsv(text: string): CsvRow[] {
  const rows: CsvRow[] = [];
  const at = { offset: text.startsWith(BYTE_ORDER_MARK) ? 1 : 0, line: 1 };
  while (at.offset < text.length) {
    const row = readRow(text, at);
    if (row.problem !== undefined || row.cells.length > 1 || row.cells[0] !== '') rows.push(row);
  }
  return rows;
}

interface Cursor {
  offset: number;
  line: number;
}

/** Reads one row and leaves `at` behind its line end. */
function readRow(text: string, at: Cursor): CsvRow {
  const row: CsvRow = { line: at.line, cells: [] };
  for (;;) {
    const quoted = text[at.offset] === '"';
    const cell = quoted ? readQuoted(text, at) : readUnquoted(text, at);
    if (cell === undefined) return { ...row, problem: 'a quote is opened and never closed' };
    row.cells.push(cell);
    const next = text[at.offset];
    if (next === ',') at.offset++;
    else if (next === undefined || next === '\r' || next === '\n') {
      skipLineEnd(text, at);
      return row;
    } else {
      readUnquoted(text, at, '\n');
      skipLineEnd(text, at);
      return { ...row, problem: `cell ${row.cells.length} goes on after its closing quote` };
    }
  }
}

function readUnquoted(text: string, at: Cursor, until = ',\r\n'): string {
  const from = at.offset;
  while (at.offset < text.length && !until.includes(text[at.offset]!)) at.offset++;
  return text.slice(from, at.offset);
}

function readQuoted(text: string, at: Cursor): string | undefined {
  let cell = '';
  at.offset++;
  for (;;) {
    const end = text.indexOf('"', at.offset);
    const part = text.slice(at.offset, end < 0 ? undefined : end);
    at.line += part.split('\n').length - 1;
    cell += part;
    at.offset = end < 0 ? text.length : end + 1;
    if (end < 0) return undefined;
    if (text[at.offset] !== '"') return cell;
    cell += '"';
    at.offset++;
  }
}

function skipLineEnd(text: string, at: Cursor): void {
  if (text[at.offset] === '\r') at.offset++;
  if (text[at.offset] === '\n') at.offset++;
  at.line++;
}

/** Rows as text: CRLF, quotes only where they are needed, and a byte order mark, without which spreadsheets take UTF-8 for something else. */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return BYTE_ORDER_MARK + rows.map((cells) => `${cells.map(quoteIfNeeded).join(',')}\r\n`).join('');
}

function quoteIfNeeded(cell: string): string {
  return /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
