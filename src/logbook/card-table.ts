/**
 * The cards of many wells as one table: a row a well, a column a field by its dotted key, as
 * `pump.motor`. A cell that is empty leaves the field as it is; a lone dash takes it out. A row
 * that cannot be read is told with its line and its reason, and stops no other.
 */
import { isCardKey, fieldOrder } from '../../shared/card/fields.ts';
import type { FlatCard } from '../../shared/card/flat-card.ts';
import { isName } from '../core/domain/parse-context.ts';
import { readCsv, writeCsv } from './csv.ts';
import type { CsvRow } from './csv.ts';
import { texts } from './texts.ts';

export interface CardRow {
  line: number;
  well: string;
  /** What the row says: no empty cells. */
  cells: FlatCard;
}

export interface BadRow {
  line: number;
  reason: string;
}

export type CardTable = { rows: CardRow[]; bad: BadRow[] } | { problem: string };

/** Ten times the wells of a large firm. */
const MAX_ROWS = 20_000;
/** Says that a field is to be taken out: what people put into a cell that has nothing to say. */
const CLEAR_FIELD = '-';
/** A dash that is meant as one, as a table has it: with an apostrophe more than the card. */
const DASH = /^'+-$/;

/**
 * Rows in the order of the table. A header that cannot be read makes the whole table unreadable.
 */
export function readCardTable(text: string): CardTable {
  const [header, ...rows] = readCsv(text);
  if (!header) return { problem: texts().table.isEmpty };
  if (rows.length > MAX_ROWS)
    return { problem: texts().table.tooManyRows({ max: MAX_ROWS, count: rows.length }) };
  const columns = header.cells
    .map((cell) => cell.trim())
    .map((key) => (key === 'switch' ? 'switch.points' : key));
  const problem = header.problem ?? columnsProblem(columns);
  if (problem !== undefined) return { problem: texts().table.line({ line: header.line, problem }) };
  const table: { rows: CardRow[]; bad: BadRow[] } = { rows: [], bad: [] };
  const lines = new Map<string, number>();
  for (const row of rows) {
    const read = readRow(row, columns, lines);
    if ('reason' in read) table.bad.push(read);
    else table.rows.push(read);
  }
  return table;
}

function columnsProblem(columns: readonly string[]): string | undefined {
  if (columns.length === 1 && /[;\t]/.test(columns[0]!)) return texts().table.needsCommas;
  const strange = columns.find((key) => !isCardKey(key));
  if (strange !== undefined)
    return texts().table.noSuchField({ column: columns.indexOf(strange) + 1, key: JSON.stringify(strange) });
  const twice = columns.find((key, at) => columns.indexOf(key) !== at);
  if (twice !== undefined) return texts().table.columnTwice(twice);
  return columns.includes('well') ? undefined : texts().table.noWellColumn;
}

function readRow(
  { line, cells, problem }: CsvRow,
  columns: readonly string[],
  lines: Map<string, number>,
): CardRow | BadRow {
  if (problem !== undefined) return { line, reason: problem };
  if (cells.length !== columns.length)
    return { line, reason: texts().table.cellCount({ cells: cells.length, columns: columns.length }) };
  const said = columns.map((key, at) => [key, (cells[at] ?? '').trim()] as const);
  const { well = '', ...says } = Object.fromEntries(said.filter(([, cell]) => cell !== ''));
  if (!isName(well)) return { line, reason: texts().table.wellName(JSON.stringify(well)) };
  const before = lines.get(well);
  if (before !== undefined) return { line, reason: texts().table.wellTwice({ well, line: before }) };
  lines.set(well, line);
  return { line, well, cells: says };
}

/** A card with what a row, or a command, says of it. */
export function applyCells(card: Readonly<FlatCard>, cells: Readonly<FlatCard>): FlatCard {
  const named = cells['switch.points'] !== undefined && cells['switch.points'] !== CLEAR_FIELD;
  const each = ['switch.cutIn', 'switch.cutOut'].filter(
    (key) => cells[key] !== undefined && cells[key] !== CLEAR_FIELD,
  );
  // The switch is written by its name or by its points: who writes one of them means it instead of
  // the other.
  const replaced = [
    ...(named && each.length === 0 ? ['switch.cutIn', 'switch.cutOut'] : []),
    ...(each.length > 0 && !named ? ['switch.points'] : []),
  ];
  const gone = (key: string): boolean =>
    cells[key] === CLEAR_FIELD || (replaced.includes(key) && cells[key] === undefined);
  return Object.fromEntries(
    Object.entries({ ...card, ...cells })
      .filter(([key]) => !gone(key))
      .map(([key, text]) => [key, key in cells && DASH.test(text) ? text.slice(1) : text]),
  );
}

/** The table of these cards, by the columns that any of them fills; `columns` adds others. */
export function writeCardTable(
  cards: readonly { well: string; flat: FlatCard }[],
  columns: readonly string[] = [],
): string {
  const keys = new Set([...columns, ...cards.flatMap(({ flat }) => Object.keys(flat))]);
  keys.delete('well');
  const ordered = [...keys].sort((a, b) => fieldOrder(a) - fieldOrder(b) || (a < b ? -1 : 1));
  return writeCsv([
    ['well', ...ordered],
    ...cards.map(({ well, flat }) => [well, ...ordered.map((key) => escapeDash(flat[key] ?? ''))]),
  ]);
}

function escapeDash(text: string): string {
  return text === CLEAR_FIELD || DASH.test(text) ? `'${text}` : text;
}
