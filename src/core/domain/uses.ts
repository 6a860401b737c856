/** What a well is used for decides how long it may run, and whether it may draw through a night. */
import type { Use } from './card.ts';

/** A field, a lawn or an open-loop heat pump draws for hours, as the weather wants. */
export function drawsForHours(uses: readonly Use[]): boolean {
  return uses.includes('irrigation') || uses.includes('heat-pump');
}
