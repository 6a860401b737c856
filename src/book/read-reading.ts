/**
 * A reading that a person brought, or that was taken from the sensors while a person stood by: what, its value with the unit, where it was
 * taken, with which instrument. `pinned` says that later readings are to be shown against it.
 */
import { choiceAt, needed, note, textAt, valueOf } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

/** What can be read, each with the dimension of its value. */
export const READINGS = {
  'static-level': 'length',
  'pumping-level': 'length',
  precharge: 'pressure',
  'cut-in': 'pressure',
  'cut-out': 'pressure',
  'fill-time': 'duration',
  amps: 'current',
  flow: 'flow',
  'volts-resting': 'voltage',
  'volts-running': 'voltage',
} as const;
export type ReadingWhat = keyof typeof READINGS;
const WHATS = Object.keys(READINGS) as ReadingWhat[];

export const readingBody: Body = {
  keys: ['what', 'value', 'pump', 'where', 'with', 'from', 'pinned', 'text', 'papers'],
  check(look) {
    needed(look, 'what', choiceAt(look, 'what', WHATS));
    needed(look, 'value', textAt(look, 'value', LONGEST_NAME));
    textAt(look, 'pump', LONGEST_NAME);
    textAt(look, 'where', LONGEST_NAME);
    textAt(look, 'with', LONGEST_NAME);
    choiceAt(look, 'from', ['hand', 'sensors']);
    const pinned = valueOf(look, 'pinned');
    if (pinned !== undefined && typeof pinned !== 'boolean') note(look, 'pinned', 'must be true or false');
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};
