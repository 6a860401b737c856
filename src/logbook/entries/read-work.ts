/** Work done on a well, what it touched, and the parts that went in. */
import type { ParseContext } from '../../core/domain/parse-context.ts';
import { required, addIssue, textAt, fieldValue } from '../../core/domain/parse-context.ts';
import { MAX_NAME_LENGTH, MAX_NOTE_LENGTH } from './limits.ts';
import { documentRefsAt } from '../documents/document-refs.ts';
import type { BodyReader } from './read-entry.ts';

const MAX_PARTS = 50;

/** What work can touch. */
export const AFFECTED_PARTS = [
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
export type AffectedPart = (typeof AFFECTED_PARTS)[number];

/** After work on one of these what was normal before is no measure any more. */
const NEW_BASELINE_PARTS: readonly AffectedPart[] = ['pump', 'motor', 'tank', 'switch'];

export function needsNewBaseline(touched: readonly AffectedPart[]): boolean {
  return touched.some((part) => NEW_BASELINE_PARTS.includes(part));
}

export const workBody: BodyReader = {
  keys: ['done', 'parts', 'touched', 'visit', 'doneBy', 'text', 'papers'],
  check(look) {
    required(look, 'done', textAt(look, 'done', MAX_NOTE_LENGTH));
    textAt(look, 'doneBy', MAX_NAME_LENGTH);
    // The act that opened the visit in which it was done.
    textAt(look, 'visit', MAX_NAME_LENGTH);
    listAt(
      look,
      'touched',
      (part) => AFFECTED_PARTS.some((one) => one === part),
      `must be a list of ${AFFECTED_PARTS.join(', ')}`,
    );
    listAt(
      look,
      'parts',
      (part) => typeof part === 'string' && part.trim() !== '' && part.length <= MAX_NAME_LENGTH,
      `must be a list of at most ${MAX_PARTS} parts, a line each`,
    );
    textAt(look, 'text', MAX_NOTE_LENGTH);
    documentRefsAt(look, 'papers');
  },
};

function listAt(look: ParseContext, key: string, isValid: (item: unknown) => boolean, rule: string): void {
  const value = fieldValue(look, key);
  if (value === undefined) return;
  if (!Array.isArray(value) || value.length > MAX_PARTS || !value.every(isValid)) addIssue(look, key, rule);
}

/** What kept work touched. */
export function affectedPartsOf(body: Record<string, unknown>): AffectedPart[] {
  const listed: unknown = body['touched'];
  return AFFECTED_PARTS.filter((part) => Array.isArray(listed) && listed.includes(part));
}
