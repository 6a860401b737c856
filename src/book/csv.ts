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

const MARK = '\uFEFF';

/** All rows; empty lines are none. A quote that is never closed makes the rest of the text one bad row. */
export function readCsv(text: string): CsvRow[] {
  const rows: CsvRow[] = [];
  const at = { place: text.startsWith(MARK) ? 1 : 0, line: 1 };
  while (at.place < text.length) {
    const row = readRow(text, at);
    if (row.problem !== undefined || row.cells.length > 1 || row.cells[0] !== '') rows.push(row);
  }
  return rows;
}

interface Place {
  place: number;
  line: number;
}

/** Reads one row and leaves `at` behind its line end. */
function readRow(text: string, at: Place): CsvRow {
  const row: CsvRow = { line: at.line, cells: [] };
  for (;;) {
    const quoted = text[at.place] === '"';
    const cell = quoted ? readQuoted(text, at) : readPlain(text, at);
    if (cell === undefined) return { ...row, problem: 'a quote is opened and never closed' };
    row.cells.push(cell);
    const next = text[at.place];
    if (next === ',') at.place++;
    else if (next === undefined || next === '\r' || next === '\n') {
      endLine(text, at);
      return row;
    } else {
      readPlain(text, at, '\n');
      endLine(text, at);
      return { ...row, problem: `cell ${row.cells.length} goes on after its closing quote` };
    }
  }
}

function readPlain(text: string, at: Place, until = ',\r\n'): string {
  const from = at.place;
  while (at.place < text.length && !until.includes(text[at.place]!)) at.place++;
  return text.slice(from, at.place);
}

function readQuoted(text: string, at: Place): string | undefined {
  let cell = '';
  at.place++;
  for (;;) {
    const end = text.indexOf('"', at.place);
    const part = text.slice(at.place, end < 0 ? undefined : end);
    at.line += part.split('\n').length - 1;
    cell += part;
    at.place = end < 0 ? text.length : end + 1;
    if (end < 0) return undefined;
    if (text[at.place] !== '"') return cell;
    cell += '"';
    at.place++;
  }
}

function endLine(text: string, at: Place): void {
  if (text[at.place] === '\r') at.place++;
  if (text[at.place] === '\n') at.place++;
  at.line++;
}

/** Rows as text: CRLF, quotes only where they are needed, and a byte order mark, without which spreadsheets take UTF-8 for something else. */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return MARK + rows.map((cells) => `${cells.map(quoteIfNeeded).join(',')}\r\n`).join('');
}

function quoteIfNeeded(cell: string): string {
  return /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
