/** Notes, and acts that changed how the well is watched, newest first. */
import { entriesOf } from '../../../shared/entries/entry.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { Table } from '../../../shared/view/table.tsx';
import type { ExportContext } from './context.ts';
import { formatValue } from './key-names.ts';

export function NotesSection({ entries, day }: ExportContext) {
  const notes = entriesOf(entries, 'note').toReversed();
  if (notes.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  const rows = notes.map(({ atMs, by, body: { text, event } }) => ({
    cells: [day(atMs), event === undefined ? text : `${WATER_EVENT_WORDS[event].question}: ${text}`, by],
  }));
  return <Table head={EXPORT_FILE_TEXT.notes.head} rows={rows} />;
}

/** Cards have their own part. */
export function ActsSection({ record, moment }: ExportContext) {
  const { none, head, titles } = EXPORT_FILE_TEXT.acts;
  const known: Readonly<Record<string, string>> = titles;
  const acts = record.acts.filter(({ kind }) => Object.hasOwn(titles, kind)).toReversed();
  if (acts.length === 0) return <p>{none}</p>;
  const rows = acts.map(({ atMs, by, kind, body }) => ({
    cells: [moment(atMs), known[kind], actDetails(body), by],
  }));
  return <Table head={head} rows={rows} />;
}

function actDetails(body: unknown): string {
  if (typeof body !== 'object' || body === null) return '';
  return formatValue(
    Object.fromEntries(Object.entries(body).filter(([key]) => key !== 'kind' && key !== 'well')),
  );
}
