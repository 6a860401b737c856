/**
 * Where people write down what they know: the card of a well with who changed it, entries, papers.
 * What is written is checked, gets its id and time here, and is committed before it is answered;
 * one thing after the other, so that what was checked is still so when it is committed.
 */
import { randomUUID } from 'node:crypto';
import { currentEntries, documentsOf, entriesOf, type EntryOf } from '../../shared/entries/entry.ts';
import { MAX_DOCUMENT_BYTES } from '../../shared/entries/limits.ts';
import { detectMediaType } from '../logbook/documents/media-type.ts';
import { isComplete } from '../logbook/documents/document-complete.ts';
import { readEntry } from '../logbook/entries/read-entry.ts';
import type { DocumentFiles } from '../store/document-files.ts';
import type { ActRow, Store } from '../store/store.ts';
import type { DocumentResult, EntryResult, LogbookService } from '../http/deps.ts';
import { newMutex } from '../mutex.ts';
import { texts } from './texts.ts';

export interface LogbookServiceParts {
  store: Store;
  documents: DocumentFiles;
  now: () => number;
}

export function openLogbookService({ store, documents, now }: LogbookServiceParts): LogbookService {
  const mutex = newMutex();
  const write = async (json: unknown, by?: string): Promise<EntryResult> => {
    const read = readEntry(json, { id: randomUUID(), createdMs: now(), ...(by !== undefined && { by }) });
    if ('problem' in read) return { problem: read.problem };
    const { entry } = read;
    const lost = documentsOf(entry).find((hash) => !documents.has(hash));
    if (lost !== undefined) return { problem: texts().thereIsNoDocument(lost) };
    if (entry.kind === 'paper' && !matchesFile(entry.body, documents))
      return {
        problem: texts().documentIsKeptBySending,
      };
    if (entry.replaces !== undefined && !(await isEntryOf(store, entry.well, entry.replaces)))
      return { problem: texts().whatItReplacesIsNo };
    await store.commit([{ change: 'entry', entry }]);
    return { entry };
  };
  const keepDocument = async (
    { well, by, ...fields }: { well: string; name: string; about?: string; text?: string; by?: string },
    { bytes, type }: { bytes: Uint8Array; type: string },
  ): Promise<DocumentResult> => {
    const hash = documents.put(bytes);
    // Who sends it again, because the line broke or another field was refused, means the one that
    // is kept already.
    const known = entriesOf(currentEntries(await store.entries(well)), 'paper').find(
      ({ body }) =>
        body.hash === hash &&
        body.name === fields.name &&
        body.about === fields.about &&
        body.text === fields.text,
    );
    return known
      ? { entry: known }
      : ((await write(
          { kind: 'paper', well, hash, type, bytes: bytes.length, ...fields },
          by,
        )) as DocumentResult);
  };
  return {
    entries: (well) => store.entries(well),
    write: (json, by) => mutex.run(() => write(json, by)),
    async addDocument(well, { bytes, ...fields }) {
      if (bytes.length > MAX_DOCUMENT_BYTES)
        return {
          problem: texts().documentIsTooLarge({
            name: fields.name,
            maxDocumentBytes: MAX_DOCUMENT_BYTES / 2 ** 20,
          }),
        };
      const type = detectMediaType(bytes);
      if (type === undefined)
        return {
          problem: texts().itMustBeAPdf(fields.name),
        };
      if (!isComplete(bytes, type))
        return {
          problem: texts().itDidNotComeWhole(fields.name),
        };
      return await mutex.run(() => keepDocument({ well, ...fields }, { bytes, type }));
    },
    document(hash) {
      const bytes = documents.read(hash);
      const type = bytes && detectMediaType(bytes);
      return bytes && type && { bytes, type };
    },
    hasDocument: (hash) => documents.has(hash),
    writtenCard: (well) => lastCard(store, well),
  };
}

/** Whether a paper's entry says of it what is so. */
function matchesFile(
  { hash, type, bytes: size }: EntryOf<'paper'>['body'],
  documents: DocumentFiles,
): boolean {
  const bytes = documents.isIntact(hash) ? documents.read(hash) : undefined;
  return bytes !== undefined && bytes.length === size && detectMediaType(bytes) === type;
}

async function isEntryOf(store: Store, well: string, id: string): Promise<boolean> {
  return (await store.entries(well)).some((entry) => entry.id === id);
}

async function lastCard(store: Store, well: string): Promise<ActRow | undefined> {
  const acts = await store.acts({ well, fromMs: 0 });
  return acts.findLast((row) => row.kind === 'card-changed' && row.well === well);
}
