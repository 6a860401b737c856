/** Papers among what was written down of a well, and how they are found and said. */
import { MAX_DOCUMENT_BYTES, MAX_NAME_LENGTH } from '../../entries/limits.ts';
import type { Entry, EntryOf } from '../../entries/entry.ts';

export interface LogbookDocument {
  entry: Entry;
  hash: string;
  name: string;
  type: string;
  bytes: number;
  about?: string;
  text?: string;
}

export interface VoidedDocument extends LogbookDocument {
  /** What struck it out: who, when and why. */
  voidedBy: EntryOf<'struck'>;
}

/** Newest first. A paper that another entry replaced is not shown: its successor is. */
export function documentsAmong(entries: readonly Entry[]): {
  documents: LogbookDocument[];
  voided: VoidedDocument[];
} {
  const replacedBy = new Map(
    entries.flatMap((one) => (one.replaces === undefined ? [] : [[one.replaces, one]])),
  );
  const documents: LogbookDocument[] = [];
  const voided: VoidedDocument[] = [];
  for (const entry of entries.toReversed()) {
    const paper = documentOf(entry);
    const by = replacedBy.get(entry.id);
    if (!paper) continue;
    if (!by) documents.push(paper);
    else if (by.kind === 'struck') voided.push({ ...paper, voidedBy: by });
  }
  return { documents, voided };
}

function documentOf(entry: Entry): LogbookDocument | undefined {
  return entry.kind === 'paper' ? { entry, ...entry.body } : undefined;
}

/**
 * Those that hold every word that is looked for, in their name, what they are about, their remark
 * or who kept them.
 */
export function searchDocuments<P extends LogbookDocument>(documents: readonly P[], query: string): P[] {
  const wanted = normalizeText(query)
    .split(/\s+/)
    .filter((word) => word !== '');
  return documents.filter(({ name, about = '', text = '', type, entry }) => {
    const held = normalizeText([name, about, text, fileTypeText(type), entry.by ?? ''].join(' '));
    return wanted.every((word) => held.includes(word));
  });
}

/**
 * Without capitals and marks over letters (Unicode, NFKD): "Pruefbericht" is looked for as it is
 * typed, "Pompe à eau" by "pompe a".
 */
function normalizeText(text: string): string {
  return text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
}

const FILE_TYPE_NAMES: Record<string, string> = {
  'application/pdf': 'PDF',
  'image/png': 'PNG picture',
  'image/jpeg': 'JPEG photo',
  'image/webp': 'WebP picture',
  'image/heic': 'HEIC photo',
  'text/plain': 'text',
};

export function fileTypeText(type: string): string {
  return FILE_TYPE_NAMES[type] ?? type;
}

/** Pictures that every browser shows; HEIC most do not. */
export function isViewable(type: string): boolean {
  return ['image/png', 'image/jpeg', 'image/webp'].includes(type);
}

/** "18 bytes", "34 kB", "2.4 MB". */
export function fileSizeText(bytes: number): string {
  if (bytes < 1_000) return `${bytes} bytes`;
  return bytes < 1e6 ? `${Math.round(bytes / 1_000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

/** Why a file need not be sent at all: said before a phone has sent it all. */
export function uploadProblem({ size }: { size: number }): string | undefined {
  if (size === 0) return 'It is empty.';
  return size > MAX_DOCUMENT_BYTES
    ? `It has ${fileSizeText(size)}; a document may have ${MAX_DOCUMENT_BYTES / 2 ** 20} MiB at most.`
    : undefined;
}

/**
 * The end of a name, which says what kind of file it is; a sign that takes two places is not cut in
 * two.
 */
function lastCharacters(text: string, maxLength: number): string {
  return text.slice(-maxLength).replace(/^[\udc00-\udfff]/, '');
}

/** What a telephone calls every photo says nothing: the date does. */
export function documentName(file: { name: string; lastModified: number }, number: number): string {
  const plainName = file.name
    .replace(/^.*[/\\]/, '')
    .replaceAll(/\p{Cc}/gu, ' ')
    .trim();
  const short = lastCharacters(plainName, MAX_NAME_LENGTH);
  if (plainName !== '' && !/^(image|photo|img)?\.?(jpe?g|heic|png)$/i.test(plainName)) return short;
  const date = new Date(file.lastModified).toISOString().slice(0, 10);
  return `photo ${date}${number === 0 ? '' : ` (${number + 1})`}`;
}
