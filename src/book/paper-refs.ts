/** The papers that an entry points to, each by its content's hash. */
import type { Look } from '../card/look.ts';
import { note, valueOf } from '../card/look.ts';
import { isPaperHash } from '../card/paper-hash.ts';
import { MOST_PAPERS } from './limits.ts';

/** `papers`: a list of hashes; absent is none. */
export function paperRefsAt(look: Look, key: string): string[] {
  const value = valueOf(look, key);
  if (value === undefined) return [];
  if (Array.isArray(value) && value.length <= MOST_PAPERS && value.every(isPaperHash)) return value;
  note(look, key, `must be a list of at most ${MOST_PAPERS} papers, each by its hash`);
  return [];
}
