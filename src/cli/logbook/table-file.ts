/**
 * A table of a file (.csv, RFC 4180) by the names of its columns; what is wrong is told with its
 * line and its column.
 */
import { readCsv } from '../../logbook/csv.ts';
import { UsageError } from '../command.ts';
import { readInputText } from '../files.ts';
import { texts } from './texts.ts';

/** A row is some 100 bytes: 80,000 rows. More is some other file. */
const MAX_BYTES = 8 * 2 ** 20;

export interface TableRow {
  line: number;
  /** Empty cells are left out. */
  cells: Readonly<Record<string, string>>;
}

export interface TableColumns {
  required: readonly string[];
  optional: readonly string[];
}

/**
 * @throws UsageError where the file is none, a column is strange or missing, or a cell that is
 * needed is empty.
 */
export function readTableFile(path: string, { required, optional }: TableColumns): TableRow[] {
  const wrong = (line: number, what: string): UsageError =>
    new UsageError(texts().line({ path, line, what }));
  const [header, ...rows] = readCsv(readInputText(path, MAX_BYTES));
  const columns = header?.cells.map((cell) => cell.trim().toLowerCase()) ?? [];
  const known = [...required, ...optional];
  const unknown = columns.find((name, at) => !known.includes(name) || columns.indexOf(name) !== at);
  if (unknown !== undefined || required.some((name) => !columns.includes(name)))
    throw wrong(
      header?.line ?? 1,
      texts().itMustNameTheColumns({
        required: required.join(', '),
        optional: optional.join(', '),
      }),
    );
  return rows.map(({ line, cells, problem }) => {
    if (problem !== undefined) throw wrong(line, problem);
    if (cells.length !== columns.length) throw wrong(line, texts().itHasCells(cells.length, columns.length));
    const named = columns.map((name, at) => [name, cells[at]!.trim()] as const);
    const empty = named.find(([name, cell]) => cell === '' && required.includes(name));
    if (empty) throw wrong(line, texts().columnIsEmpty(empty[0]));
    return { line, cells: Object.fromEntries(named.filter(([, cell]) => cell !== '')) };
  });
}
