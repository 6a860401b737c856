/**
 * What somebody noticed or wants remembered. `event` marks what makes the water worth testing: a flood, another taste, somebody ill
 * (EPA, "Protect Your Home's Water").
 */
import { WATER_EVENTS } from '../../shared/words/water-words.ts';
import { choiceAt, needed, textAt } from '../card/look.ts';
import { LONGEST_NOTE } from './limits.ts';
import type { Body } from './read-entry.ts';

export const noteBody: Body = {
  keys: ['text', 'event'],
  check(look) {
    needed(look, 'text', textAt(look, 'text', LONGEST_NOTE));
    choiceAt(look, 'event', WATER_EVENTS);
  },
};
