/** The documents of the well. Their bytes are in the ZIP, not in the page. */
import { entriesOf } from '../../../shared/entries/entry.ts';
import { fileSizeText, fileTypeText } from '../../../shared/text/en/documents.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { Table } from '../../../shared/view/table.tsx';
import type { ExportContext } from './context.ts';
import { documentFileName } from './document-names.ts';

const TEXT = EXPORT_FILE_TEXT.papers;

export function DocumentsSection({ entries, record, availableDocuments, day }: ExportContext) {
  const documents = entriesOf(entries, 'paper').toReversed();
  if (documents.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  const rows = documents.map(({ atMs, by, body: { hash, name, about, text, type, bytes } }) => ({
    key: hash,
    cells: [
      day(atMs),
      <>
        {name}
        {about !== undefined && ` (${about})`}
        {text !== undefined && <p>{text}</p>}
      </>,
      `${fileTypeText(type)}, ${fileSizeText(bytes)}`,
      availableDocuments.has(hash) ? <code>{documentFileName(hash, record.entries)}</code> : TEXT.missing,
      by,
    ],
  }));
  return (
    <>
      <p class="secondary">{TEXT.intro}</p>
      <Table head={TEXT.head} rows={rows} />
    </>
  );
}
