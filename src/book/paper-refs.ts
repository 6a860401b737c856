/** Papers are pointed to by their content hash: SHA-256 (FIPS 180-4) in lower-case hex. */
import type { Look } from '../card/look.ts';
import { note, valueOf } from '../card/look.ts';
import { MOST_PAPERS } from './limits.ts';

export function isPaperHash(value: unknown): value is string {
  return typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
}

/** `papers`: a list of hashes; absent is none. */
export function paperRefsAt(look: Look, key: string): string[] {
  const value = valueOf(look, key);
  if (value === undefined) return [];
  if (Array.isArray(value) && value.length <= MOST_PAPERS && value.every(isPaperHash)) return value;
  note(look, key, `must be a list of at most ${MOST_PAPERS} papers, each by its hash`);
  return [];
}
