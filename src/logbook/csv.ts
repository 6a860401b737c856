/**
 * Comma-separated values after RFC 4180, both ways: quoted cells with commas, quotes and line ends
 * in them, CRLF or LF, a byte order mark before the first cell. A quote within a cell that does not
 * begin with one is a quote and nothing more (people write 6" for a casing). What is wrong is told
 * with its line.
 *
 * A spreadsheet calculates with a cell that begins like a formula, whoever wrote it. Such a cell is
 * written with an apostrophe before it, which is taken off again on reading, so that every text
 * comes back as it was; csv-stringify's own escape has no way back. A number stays a number, with
 * its unit or without, and a lone dash runs nothing.
 */
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { texts } from './texts.ts';

export interface CsvRow {
  /** Where it begins; the first line is 1. */
  line: number;
  cells: string[];
  /** What is wrong with it; its cells are then not to be used. */
  problem?: string;
}

export type CsvCell = string | number | undefined;

/**
 * "-3 ft" is a quantity and no formula; what goes on after a number as no quantity does, "-2+3+…",
 * is one.
 */
const FORMULA = /^'*(?:[=+@\t\r]|-(?!(?:\d[\d.,/ ]*[a-z°³/]*)?$))/i;
const CR = 0x0d;
const LF = 0x0a;

/**
 * All rows; empty lines are none. A quote that is never closed makes the rest of the text one bad
 * row.
 */
export function readCsv(text: string): CsvRow[] {
  const bytes = new TextEncoder().encode(text.startsWith('\uFEFF') ? text.slice(1) : text);
  const at = { offset: 0, line: 1 };
  let isOpen = false;
  const records = parse(bytes, {
    info: true,
    raw: true,
    record_delimiter: ['\r\n', '\n'],
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    skip_records_with_error: true,
    on_skip: () => void (isOpen = true),
  }) as unknown as { record: string[]; raw: string; info: { bytes: number } }[];
  const rows = records.map(({ record, raw, info }): CsvRow => {
    const line = nextLine(bytes, at);
    countLines(bytes, at, info.bytes);
    const open = record.findIndex((cell) => continues(cell, raw));
    if (open >= 0) return { line, cells: record, problem: texts().table.textAfterQuote(open + 1) };
    return { line, cells: record.map(readCell) };
  });
  if (isOpen) rows.push({ line: nextLine(bytes, at), cells: [], problem: texts().table.openQuote });
  return rows.filter(({ problem, cells }) => problem !== undefined || cells.length > 1 || cells[0] !== '');
}

/** The line of the next row: the parser's own count takes CRLF within quotes for two. */
function nextLine(bytes: Uint8Array, at: { offset: number; line: number }): number {
  let begins = at.offset;
  while (bytes[begins] === CR || bytes[begins] === LF) begins++;
  return countLines(bytes, at, begins);
}

function countLines(bytes: Uint8Array, at: { offset: number; line: number }, to: number): number {
  for (; at.offset < to; at.offset++) if (bytes[at.offset] === LF) at.line++;
  return at.line;
}

/**
 * Whether a cell was quoted and not at an end with its closing quote: the parser then leaves the
 * quotes as they were.
 */
function continues(cell: string, raw: string): boolean {
  return cell.startsWith('"') && !raw.includes(`"${cell.replaceAll('"', '""')}"`);
}

/**
 * Rows as text: CRLF, quotes only where they are needed, and a byte order mark, without which
 * spreadsheets take UTF-8 for something else.
 */
export function writeCsv(rows: readonly (readonly CsvCell[])[]): string {
  return stringify(
    rows.map((row) => row.map(writeCell)),
    { bom: true, record_delimiter: '\r\n', quoted_match: /[\r\n]|^\s|\s$/ },
  );
}

function writeCell(cell: CsvCell): CsvCell {
  return typeof cell === 'string' && FORMULA.test(cell) ? `'${cell}` : cell;
}

function readCell(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;
}
