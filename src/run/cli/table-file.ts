/** A table of a file (.csv, RFC 4180) by the names of its columns; what is wrong is told with its line and its column. */
import { readFileSync } from 'node:fs';
import { readCsv } from '../../book/csv.ts';
import { Misuse } from './command.ts';

export interface TableRow {
  line: number;
  /** Empty cells are left out. */
  says: Readonly<Record<string, string>>;
}

export interface TableColumns {
  needed: readonly string[];
  others: readonly string[];
}

/** @throws Misuse where the file is none, a column is strange or missing, or a cell that is needed is empty. */
export function readTableFile(path: string, { needed, others }: TableColumns): TableRow[] {
  const wrong = (line: number, what: string): Misuse =>
    new Misuse(`Cannot read ${path}: line ${line}: ${what}`);
  const [header, ...rows] = readCsv(textOf(path));
  const columns = header?.cells.map((cell) => cell.trim().toLowerCase()) ?? [];
  const known = [...needed, ...others];
  const strange = columns.find((name, at) => !known.includes(name) || columns.indexOf(name) !== at);
  if (strange !== undefined || needed.some((name) => !columns.includes(name)))
    throw wrong(
      header?.line ?? 1,
      `it must name the columns ${needed.join(', ')}${others.length > 0 ? `, and may name ${others.join(', ')}` : ''}`,
    );
  return rows.map(({ line, cells, problem }) => {
    if (problem !== undefined) throw wrong(line, problem);
    if (cells.length !== columns.length)
      throw wrong(line, `it has ${cells.length} cells, and the header ${columns.length}`);
    const said = columns.map((name, at) => [name, cells[at]!.trim()] as const);
    const empty = said.find(([name, cell]) => cell === '' && needed.includes(name));
    if (empty) throw wrong(line, `column ${empty[0]} is empty`);
    return { line, says: Object.fromEntries(said.filter(([, cell]) => cell !== '')) };
  });
}

function textOf(path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  } catch (cause) {
    const why =
      cause instanceof TypeError ? 'it must be UTF-8 (save it as "CSV UTF-8")' : 'there is no such file';
    throw new Misuse(`Cannot read ${path}: ${why}`, { cause });
  }
}
