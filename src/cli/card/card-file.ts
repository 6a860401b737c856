/**
 * A file of cards: a table (.csv) or JSON (one card, or a list of them), as what each of its wells'
 * cards is to become.
 */
import { readCardTable, applyCells } from '../../logbook/card-table.ts';
import { flatten, type FlatCard } from '../../../shared/card/flat-card.ts';
import { UsageError } from '../command.ts';
import { readInputText } from '../files.ts';
import type { RowMistake } from '../mistake-lines.ts';
import { texts } from './texts.ts';

/** 20,000 wells with a page of text each make 40 MB; more is some other file. */
const MAX_BYTES = 64 * 2 ** 20;

export interface CardTask {
  /** Of the table, or the place in the list. */
  line: number;
  well: string;
  /** The card that is to be, from the one that stands. */
  apply: (card: Readonly<FlatCard>) => FlatCard;
}

export interface CardFile {
  tasks: CardTask[];
  bad: RowMistake[];
  /** How a place in it is called. */
  rowName: 'line' | 'card';
}

/** @throws UsageError where the file cannot be read at all. */
export function readCardFile(path: string): CardFile {
  const isJson = /\.json$/i.test(path);
  if (!isJson && !/\.csv$/i.test(path)) throw new UsageError(texts().itsNameMustEnd(path));
  const text = readInputText(path, MAX_BYTES);
  if (isJson) return readJson(path, text);
  const table = readCardTable(text);
  if ('problem' in table) throw new UsageError(texts().read({ path, problem: table.problem }));
  const tasks = table.rows.map(({ line, well, cells }) => ({
    line,
    well,
    apply: (card: Readonly<FlatCard>) => applyCells(card, cells),
  }));
  return { tasks, bad: table.bad, rowName: 'line' };
}

function readJson(path: string, text: string): CardFile {
  const list = listIn(path, text);
  const file: CardFile = { tasks: [], bad: [], rowName: 'card' };
  list.forEach((card, at) => {
    const fields: Record<string, unknown> = typeof card === 'object' && card !== null ? { ...card } : {};
    const { well } = fields;
    const line = at + 1;
    if (typeof well !== 'string') file.bad.push({ line, reason: texts().itMustBeACard });
    else if (file.tasks.some((task) => task.well === well))
      file.bad.push({ line, reason: texts().isInTheListTwice(well) });
    else file.tasks.push({ line, well, apply: () => flatten(fields) });
  });
  return file;
}

function listIn(path: string, text: string): unknown[] {
  try {
    const json: unknown = JSON.parse(text);
    return Array.isArray(json) ? json : [json];
  } catch (cause) {
    throw new UsageError(texts().itMustBeJson(path), { cause });
  }
}
