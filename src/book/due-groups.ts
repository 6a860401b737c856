/** In which part of a list of what is due a check stands: by its day, among those nobody wrote down, or among those that wait. */
import type { DueCheck } from './due.ts';

export type DueGroup = 'dated' | 'unwritten' | 'at-rest';

/** `until`: ISO date up to which the list goes. Undefined where the check is not in it. */
export function dueGroup({ on, state, proposedOn, atRest }: DueCheck, until: string): DueGroup | undefined {
  if (on !== undefined && on <= until) return 'dated';
  if (state === 'unwritten' && proposedOn !== undefined && proposedOn <= until) return 'unwritten';
  return atRest ? 'at-rest' : undefined;
}
