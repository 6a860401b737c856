/**
 * `stillwell due done --table`: what a firm's own list says of checks that were done, a row a
 * check. All rows are looked through before the first is written; what was written already is
 * passed over, so that after a stop it can be run again.
 */
import type { ChecksAnswer } from '../../../shared/api/due.ts';
import { entryMoment } from '../../../shared/notes/entry-day.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { CHECK_OUTCOMES } from '../../../shared/entries/entry-fields.ts';
import { mistakeLines } from '../mistake-lines.ts';
import { EXIT, type Io } from '../command.ts';
import { ApiError, type ServerApi } from '../server-api.ts';
import { readTableFile, type TableRow } from '../logbook/table-file.ts';
import { actorOf } from '../logbook/write-entry.ts';
import { texts } from './texts.ts';

const COLUMNS = {
  required: ['well', 'check', 'on'],
  optional: ['result', 'value', 'left', 'note', 'by'],
} as const;

export interface TableOptions {
  file: string;
  by?: string | undefined;
  dryRun: boolean;
}

interface Row {
  line: number;
  well: string;
  entry: Record<string, unknown>;
  by?: string;
}

/** A row that can be written, one that was written before, or why it is neither. */
type ParsedRow = { row: Row } | 'known' | { problem: string };

export async function writeTable(io: Io, api: ServerApi, options: TableOptions): Promise<number> {
  const rows = readTableFile(options.file, COLUMNS);
  const wells = await checksOf(api, rows);
  const read = rows.map((row) => readRow(row, wells));
  const bad = read.flatMap((one, at) =>
    typeof one === 'object' && 'problem' in one ? [{ line: rows[at]?.line ?? 0, reason: one.problem }] : [],
  );
  if (bad.length > 0) {
    for (const line of mistakeLines(bad, texts().rows)) io.err(line);
    io.err(texts().nothingWasRecordedOfLines({ badCount: bad.length, rowsCount: rows.length }));
    return EXIT.usage;
  }
  const fresh = read.flatMap((one) => (typeof one === 'object' && 'row' in one ? [one.row] : []));
  const same = texts().wereRecordedBefore(rows.length - fresh.length);
  if (options.dryRun) {
    io.out(texts().checksWouldBeRecordedNothing({ freshCount: fresh.length, same }));
    return EXIT.ok;
  }
  const stopped = await writeAll(io, api, fresh, options);
  if (stopped === undefined) io.out(texts().checksRecorded({ freshCount: fresh.length, same }));
  else io.err(stopped);
  return stopped === undefined ? EXIT.ok : EXIT.failed;
}

/** Why and where it stopped, where it did. */
async function writeAll(
  io: Io,
  api: ServerApi,
  rows: readonly Row[],
  options: TableOptions,
): Promise<string | undefined> {
  for (const [n, { line, well, entry, by }] of rows.entries()) {
    const actor = by === undefined ? actorOf(options, io) : { by };
    try {
      // One upon the other: the server commits each before the next.
      // oxlint-disable-next-line no-await-in-loop
      await api.post('writeEntry', { well }, { entry, ...actor });
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      return texts().lineOfChecksWereRecorded({
        line,
        well,
        message: error.message,
        n,
        rowsCount: rows.length,
      });
    }
  }
  return undefined;
}

/** The checks of each well that a row names; wells that are not there have none. */
async function checksOf(api: ServerApi, rows: readonly TableRow[]): Promise<Map<string, ChecksAnswer>> {
  const wells = new Map<string, ChecksAnswer>();
  for (const well of new Set(rows.map(({ cells }) => cells['well'] ?? ''))) {
    try {
      // oxlint-disable-next-line no-await-in-loop
      wells.set(well, await api.get('checks', { well }));
    } catch (error) {
      if (!(error instanceof ApiError) || error.status !== 404) throw error;
    }
  }
  return wells;
}

function readRow({ line, cells }: TableRow, wells: ReadonlyMap<string, ChecksAnswer>): ParsedRow {
  const { well = '', check = '', on = '', result = 'right', value, left, note, by } = cells;
  const known = wells.get(well);
  if (!known) return { problem: texts().columnWellThereIsNo(well) };
  const of = known.checks.find((one) => one.check === check);
  if (!of)
    return {
      problem: texts().columnCheckHasAndNo({
        well,
        checks: known.checks.map((one) => one.check).join(', '),
        check,
      }),
    };
  const at = entryMoment(on, known);
  if ('reason' in at) return { problem: texts().columnOn({ reason: at.reason, on }) };
  if (!CHECK_OUTCOMES.some((one) => one === result))
    return { problem: texts().columnResultMustBeOne({ checkOutcomes: CHECK_OUTCOMES.join(', '), result }) };
  for (const [column, text] of [
    ['value', value],
    ['left', left],
  ] as const) {
    const problem = text === undefined ? undefined : problemOfValue(text, of.value?.dimension);
    if (problem !== undefined)
      return { problem: texts().columnProblem({ column, problem, value: text ?? '' }) };
  }
  if (of.completions.some((one) => one.date === on && one.outcome === result)) return 'known';
  const more = Object.entries({ value, left, text: note }).filter(([, text]) => text !== undefined);
  const entry = { kind: 'check', check, outcome: result, at: at.at, ...Object.fromEntries(more) };
  return { row: { line, well, entry, ...(by !== undefined && { by }) } };
}

function problemOfValue(text: string, dimension: 'pressure' | undefined): string | undefined {
  if (dimension === undefined) return undefined;
  const read = parseQuantity(text, dimension);
  return 'problem' in read ? read.problem : undefined;
}
