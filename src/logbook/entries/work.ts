/** What work on a well means for what was normal before. */
import type { AffectedPart } from '../../../shared/entries/entry-fields.ts';

/** After work on one of these what was normal before is no measure any more. */
const NEW_BASELINE_PARTS: readonly AffectedPart[] = ['pump', 'motor', 'tank', 'switch'];

export function needsNewBaseline(touched: readonly AffectedPart[]): boolean {
  return touched.some((part) => NEW_BASELINE_PARTS.includes(part));
}
