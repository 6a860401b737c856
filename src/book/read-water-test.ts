/** The results of a water test, by analyte and unit, as the laboratory wrote them. */
import { note, textAt, valueOf } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

export const waterTestBody: Body = {
  keys: ['laboratory', 'place', 'why', 'results', 'text', 'papers'],
  check(look) {
    textAt(look, 'laboratory', LONGEST_NAME);
    textAt(look, 'place', LONGEST_NAME);
    textAt(look, 'why', LONGEST_NAME);
    if (!Array.isArray(valueOf(look, 'results'))) note(look, 'results', 'must be a list of results');
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};
