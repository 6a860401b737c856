/**
 * What somebody noticed or wants remembered. `event` marks what makes the water worth testing: a flood, another taste, somebody ill
 * (EPA, "Protect Your Home's Water").
 */
import { WATER_EVENTS } from '../../../shared/text/en/water-words.ts';
import { choiceAt, required, textAt } from '../../core/domain/parse-context.ts';
import { MAX_NOTE_LENGTH } from './limits.ts';
import type { BodyReader } from './read-entry.ts';

export const noteBody: BodyReader = {
  keys: ['text', 'event'],
  check(look) {
    required(look, 'text', textAt(look, 'text', MAX_NOTE_LENGTH));
    choiceAt(look, 'event', WATER_EVENTS);
  },
};
