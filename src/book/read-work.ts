/** Work done on a well, what it touched, and the parts that went in. */
import type { Look } from '../card/look.ts';
import { needed, note, textAt, valueOf } from '../card/look.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

const MOST_PARTS = 50;

/** What work can touch. */
export const TOUCHED = [
  'pump',
  'motor',
  'tank',
  'switch',
  'pipe',
  'wiring',
  'well',
  'sensors',
  'other',
] as const;
export type Touched = (typeof TOUCHED)[number];

/** After work on one of these what was normal before is no measure any more. */
const NEW_NORMAL: readonly Touched[] = ['pump', 'motor', 'tank', 'switch'];

export function asksNewBaseline(touched: readonly Touched[]): boolean {
  return touched.some((part) => NEW_NORMAL.includes(part));
}

export const workBody: Body = {
  keys: ['done', 'parts', 'touched', 'visit', 'doneBy', 'text', 'papers'],
  check(look) {
    needed(look, 'done', textAt(look, 'done', LONGEST_NOTE));
    textAt(look, 'doneBy', LONGEST_NAME);
    // The act that opened the visit in which it was done.
    textAt(look, 'visit', LONGEST_NAME);
    listAt(
      look,
      'touched',
      (part) => TOUCHED.some((one) => one === part),
      `must be a list of ${TOUCHED.join(', ')}`,
    );
    listAt(
      look,
      'parts',
      (part) => typeof part === 'string' && part.trim() !== '' && part.length <= LONGEST_NAME,
      `must be a list of at most ${MOST_PARTS} parts, a line each`,
    );
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};

function listAt(look: Look, key: string, holds: (item: unknown) => boolean, rule: string): void {
  const value = valueOf(look, key);
  if (value === undefined) return;
  if (!Array.isArray(value) || value.length > MOST_PARTS || !value.every(holds)) note(look, key, rule);
}

/** What kept work touched. */
export function touchedOf(body: Record<string, unknown>): Touched[] {
  const listed: unknown = body['touched'];
  return TOUCHED.filter((part) => Array.isArray(listed) && listed.includes(part));
}
