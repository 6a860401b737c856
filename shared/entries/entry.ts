/**
 * What people write down of a well besides its card: readings that they brought, checks done, water
 * tests, work, documents. Each entry is a plain value that is kept for ever. It is corrected by a
 * later one that replaces it, so that nothing is lost and who wrote what when can always be seen.
 * The engine knows nothing of entries: what changes how a well is watched is an act
 * (src/core/domain/act.ts).
 */
import type { Written } from '../schema/field.ts';
import type { ENTRY_FIELDS, EntryKind } from './entry-fields.ts';

/** One of a kind as it is kept. Two entries with the same content are two entries. */
export interface EntryOf<K extends EntryKind> {
  /** Unique for ever, also in another Stillwell that it is handed to. */
  id: string;
  well: string;
  kind: K;
  /** When it was so: the reading taken, the check done, the sample drawn. */
  atMs: number;
  /** When it was written down. */
  createdMs: number;
  by?: string;
  /** The entry that this one corrects or voids. */
  replaces?: string;
  /** As it was written, quantities with their units. */
  body: Written<(typeof ENTRY_FIELDS)[K]>;
}

export type Entry = { [K in EntryKind]: EntryOf<K> }[EntryKind];

/**
 * The entries that count: neither replaced nor voided, by the time at which they were so, then
 * written; of one moment in the order in which they came. An entry that replaces one that another
 * replaced already counts too: two people corrected it, and both are shown.
 */
export function currentEntries(entries: readonly Entry[]): Entry[] {
  const gone = new Set(entries.map((entry) => entry.replaces).filter((id) => id !== undefined));
  return entries
    .filter((entry) => entry.kind !== 'struck' && !gone.has(entry.id))
    .toSorted((a, b) => a.atMs - b.atMs || a.createdMs - b.createdMs);
}

/** Those of one kind, in their order. */
export function entriesOf<K extends EntryKind>(entries: readonly Entry[], kind: K): EntryOf<K>[] {
  return entries.filter((entry): entry is EntryOf<K> & Entry => entry.kind === kind);
}

/** The hashes of the documents that an entry points to. */
export function documentsOf({ body }: Entry): string[] {
  return 'papers' in body ? (body.papers ?? []) : [];
}
