/** A paper in the well's record: a manual, receipt, well log or photo. Its bytes lie beside the database under their hash. */
import { needed, note, textAt, valueOf } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE, MOST_PAPER_BYTES } from './limits.ts';
import { isPaperHash } from '../card/paper-hash.ts';
import type { Body } from './read-entry.ts';

export const paperBody: Body = {
  keys: ['hash', 'name', 'type', 'bytes', 'about', 'text'],
  check(look) {
    if (!isPaperHash(valueOf(look, 'hash'))) note(look, 'hash', 'must be the SHA-256 of the bytes in hex');
    needed(look, 'name', textAt(look, 'name', LONGEST_NAME));
    needed(look, 'type', textAt(look, 'type', LONGEST_NAME));
    const bytes = valueOf(look, 'bytes');
    if (typeof bytes !== 'number' || !Number.isInteger(bytes) || bytes < 1 || bytes > MOST_PAPER_BYTES)
      note(look, 'bytes', `must be a whole number up to ${MOST_PAPER_BYTES}`);
    textAt(look, 'about', LONGEST_NAME);
    textAt(look, 'text', LONGEST_NOTE);
  },
};
