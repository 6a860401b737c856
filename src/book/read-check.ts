/** A check that was done: which, how it came out, a value, a remark, photos. */
import { choiceAt, needed, textAt } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

const OUTCOMES = ['right', 'put-right', 'not-right', 'not-done'] as const;
export type CheckOutcome = (typeof OUTCOMES)[number];

export const checkBody: Body = {
  keys: ['check', 'outcome', 'value', 'text', 'papers'],
  check(look) {
    needed(look, 'check', textAt(look, 'check', LONGEST_NAME));
    needed(look, 'outcome', choiceAt(look, 'outcome', OUTCOMES));
    textAt(look, 'value', LONGEST_NAME);
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};
