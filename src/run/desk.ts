/**
 * Where people write down what they know: the card of a well with who changed it, entries, papers. What is written is checked, gets its id
 * and time here, and is committed before it is answered.
 */
import { randomUUID } from 'node:crypto';
import { currentEntries } from '../book/entry.ts';
import { MOST_PAPER_BYTES } from '../book/limits.ts';
import { paperType } from '../book/paper-type.ts';
import { isWhole } from '../book/paper-whole.ts';
import { readEntry } from '../book/read-entry.ts';
import type { PaperFiles } from '../store/paper-files.ts';
import type { ActRow, Store } from '../store/store.ts';
import type { Desk } from '../web/deps.ts';

export interface DeskParts {
  store: Store;
  papers: PaperFiles;
  now: () => number;
}

export function openDesk({ store, papers, now }: DeskParts): Desk {
  const write: Desk['write'] = (json, by) => {
    const read = readEntry(json, { id: randomUUID(), madeMs: now(), ...(by !== undefined && { by }) });
    if ('problem' in read) return { no: read.problem };
    const { entry } = read;
    const lost = missing(entry.body['papers'], papers);
    if (lost !== undefined) return { no: `Cannot keep entry: there is no paper ${lost}` };
    if (entry.kind === 'paper' && !isOf(entry.body, papers))
      return {
        no: 'Cannot keep entry: a paper is kept by sending its bytes; hash, type and size must be theirs',
      };
    if (entry.replaces !== undefined && !store.entries(entry.well).some((one) => one.id === entry.replaces))
      return { no: 'Cannot keep entry: what it replaces is no entry of this well' };
    store.commit([{ change: 'entry', entry }]);
    return { entry };
  };
  return {
    entries: (well) => store.entries(well),
    write,
    addPaper(well, { bytes, by, ...said }) {
      if (bytes.length > MOST_PAPER_BYTES)
        return { no: `Cannot keep ${said.name}: a paper has ${MOST_PAPER_BYTES / 2 ** 20} MiB at most` };
      const type = paperType(bytes);
      if (type === undefined)
        return {
          no: `Cannot keep ${said.name}: it must be a PDF, a JPEG, PNG, WebP or HEIC picture, or plain text, by its content and whatever its name says`,
        };
      if (!isWhole(bytes, type))
        return { no: `Cannot keep ${said.name}: it did not come whole, its end is missing. Send it again` };
      const hash = papers.put(bytes);
      // Who sends it again, because the line broke or another field was refused, means the one that is kept already.
      const known = currentEntries(store.entries(well)).find(
        ({ kind, body }) =>
          kind === 'paper' &&
          body['hash'] === hash &&
          body['name'] === said.name &&
          body['about'] === said.about &&
          body['text'] === said.text,
      );
      return known
        ? { entry: known }
        : write({ kind: 'paper', well, hash, type, bytes: bytes.length, ...said }, by);
    },
    paper(hash) {
      const bytes = papers.read(hash);
      const type = bytes && paperType(bytes);
      return bytes && type && { bytes, type };
    },
    hasPaper: (hash) => papers.has(hash),
    writtenCard: (well) => lastCard(store, well),
  };
}

/** Whether a paper's entry says of it what is so. */
function isOf({ hash, type, bytes: size }: Record<string, unknown>, papers: PaperFiles): boolean {
  const bytes = typeof hash === 'string' && papers.isSound(hash) ? papers.read(hash) : undefined;
  return bytes !== undefined && bytes.length === size && paperType(bytes) === type;
}

function missing(listed: unknown, papers: PaperFiles): string | undefined {
  const hashes: unknown[] = Array.isArray(listed) ? listed : [];
  return hashes.find((hash): hash is string => typeof hash === 'string' && !papers.has(hash));
}

function lastCard(store: Store, well: string): ActRow | undefined {
  return store.acts({ well, fromMs: 0 }).findLast((row) => row.kind === 'card-changed' && row.well === well);
}
