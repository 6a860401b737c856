/** Work done on a well, and the parts that went in. */
import { needed, note, textAt, valueOf } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

const MOST_PARTS = 50;

export const workBody: Body = {
  keys: ['done', 'parts', 'doneBy', 'text', 'papers'],
  check(look) {
    needed(look, 'done', textAt(look, 'done', LONGEST_NOTE));
    textAt(look, 'doneBy', LONGEST_NAME);
    const parts = valueOf(look, 'parts');
    const rightParts =
      parts === undefined ||
      (Array.isArray(parts) &&
        parts.length <= MOST_PARTS &&
        parts.every((part) => typeof part === 'string' && part.length <= LONGEST_NAME));
    if (!rightParts) note(look, 'parts', `must be a list of at most ${MOST_PARTS} parts, a line each`);
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};
