/**
 * What a paper is called in a packet: the beginning of its hash, then the name that somebody gave
 * it with everything left out that is not a plain letter or digit. A name is never a path here, and
 * it never decides anything: papers are known by their hash alone.
 */
import { currentEntries, entriesOf, type Entry } from '../../../shared/entries/entry.ts';

const EXTENSIONS: Record<string, string> = {
  'application/pdf': 'pdf',
  'image/png': 'png',
  'image/jpeg': 'jpg',
  'image/webp': 'webp',
  'image/heic': 'heic',
  'text/plain': 'txt',
};
const MAX_STEM_LENGTH = 60;
/** Enough of the hash that no two papers of a well share it. */
const HASH_PREFIX_LENGTH = 16;

export const DOCUMENTS_PATH = 'papers/';

/** `papers/3f2a9c1d00aa17be-well-log.pdf`. */
export function documentFileName(hash: string, entries: readonly Entry[]): string {
  const named = entriesOf(currentEntries(entries), 'paper').findLast(({ body }) => body.hash === hash)?.body;
  const stem = slugify((named?.name ?? '').replace(/\.[a-z0-9]{1,5}$/i, ''));
  const ending = EXTENSIONS[named?.type ?? ''] ?? 'bin';
  return `${DOCUMENTS_PATH}${hash.slice(0, HASH_PREFIX_LENGTH)}${stem === '' ? '' : `-${stem}`}.${ending}`;
}

/** Letters without their marks (Unicode, NFKD), lower case, words parted by one dash. */
function slugify(name: string): string {
  return name
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, MAX_STEM_LENGTH)
    .replaceAll(/^-+|-+$/g, '');
}
