/** What each priority asks of a person (contract, section 6). */
import type { Priority } from './kinds.ts';

export const PRIORITY_WORDS: Record<Priority, { name: string; means: string }> = {
  now: { name: 'Now', means: 'Act today; get up for it.' },
  soon: { name: 'Soon', means: 'See to it within days.' },
  note: { name: 'Worth a look', means: 'Nothing to do in a hurry.' },
};
