/** `stillwell card export`: all cards, as they were written, as JSON or as a table. */
import { writeCardTable } from '../../logbook/card-table.ts';
import { SECTIONS } from '../../../shared/card/fields.ts';
import { flatten } from '../../../shared/card/flat-card.ts';
import { EXIT, type Io } from '../command.ts';
import { requireNewFile, writeNewFile } from '../files.ts';
import type { ServerApi } from '../server-api.ts';
import { texts } from './texts.ts';

export interface ExportOptions {
  file: string | undefined;
  csv: boolean;
  all: boolean;
}

export async function exportCards(
  io: Io,
  api: ServerApi,
  { file, csv, all }: ExportOptions,
): Promise<number> {
  // The table that somebody is filling in by hand is often called the same.
  if (file !== undefined) requireNewFile(file);
  const { cards } = await api.get('cards');
  const asTable = csv || (file !== undefined && /\.csv$/i.test(file));
  const text = asTable
    ? writeCardTable(
        cards.map(({ well, card }) => ({ well, flat: flatten(card) })),
        // Where there is no card yet, the table shows what could be filled in.
        all || cards.length === 0 ? SECTIONS.flatMap(({ fields }) => fields.map(({ key }) => key)) : [],
      )
    : `${JSON.stringify(
        cards.map(({ well, card }) => ({ well, ...card })),
        undefined,
        2,
      )}\n`;
  if (file === undefined) io.out(text.trimEnd());
  else {
    writeNewFile(file, text);
    io.err(texts().exportedTo({ cards: cards.length, file }));
  }
  return EXIT.ok;
}
