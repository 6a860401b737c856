/**
 * What people write down of a well besides its card: readings that they brought, checks done, water
 * tests, work, papers. Each entry is a plain value that is kept for ever; it is put right by a
 * later one that replaces it, so that nothing is lost and who wrote what when can always be seen.
 * The engine knows nothing of entries: what changes how a well is watched is an act
 * (src/core/domain/act.ts).
 */

import type { EntryKind } from '../../../shared/entries/entry-fields.ts';

/** As it is kept. Two entries with the same content are two entries. */
export interface Entry {
  /** Unique for ever, also in another Stillwell that it is handed to. */
  id: string;
  well: string;
  kind: EntryKind;
  /** When it was so: the reading taken, the check done, the sample drawn. */
  atMs: number;
  /** When it was written down. */
  createdMs: number;
  by?: string;
  /** The entry that this one puts right, or strikes out. */
  replaces?: string;
  /** As it was written, quantities with their units. */
  body: Record<string, unknown>;
}

/** An entry as others hold it, who need not know every kind. */
export type StoredEntry = Omit<Entry, 'kind'> & { kind: string };

/**
 * The entries that count: neither replaced nor struck out, by the time at which they were so, then
 * written; of one moment in the order in which they came. An entry that replaces one that another
 * replaced already counts too: two people put it right, and both are shown.
 */
export function currentEntries<E extends StoredEntry>(entries: readonly E[]): E[] {
  const gone = new Set(entries.map((entry) => entry.replaces).filter((id) => id !== undefined));
  return entries
    .filter((entry) => entry.kind !== 'struck' && !gone.has(entry.id))
    .toSorted((a, b) => a.atMs - b.atMs || a.createdMs - b.createdMs);
}
