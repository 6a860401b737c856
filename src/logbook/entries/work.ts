/** What work on a well means for what was normal before. */
import { AFFECTED_PARTS, type AffectedPart } from '../../../shared/entries/entry-fields.ts';

/** After work on one of these what was normal before is no measure any more. */
const NEW_BASELINE_PARTS: readonly AffectedPart[] = ['pump', 'motor', 'tank', 'switch'];

export function needsNewBaseline(touched: readonly AffectedPart[]): boolean {
  return touched.some((part) => NEW_BASELINE_PARTS.includes(part));
}

/** What kept work touched. */
export function affectedPartsOf(body: Record<string, unknown>): AffectedPart[] {
  const listed: unknown = body['touched'];
  return AFFECTED_PARTS.filter((part) => Array.isArray(listed) && listed.includes(part));
}
