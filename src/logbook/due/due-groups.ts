/**
 * In which part of a list of what is due a check stands: by its day, among those nobody wrote down,
 * or among those that wait.
 */
import type { DueCheck } from './due.ts';

export type DueGroup = 'dated' | 'not-recorded' | 'on-hold';

/** `until`: ISO date up to which the list goes. Undefined where the check is not in it. */
export function dueGroup(
  { dueDate, state, proposedDate, onHold }: DueCheck,
  until: string,
): DueGroup | undefined {
  if (dueDate !== undefined && dueDate <= until) return 'dated';
  if (state === 'not-recorded' && proposedDate !== undefined && proposedDate <= until) return 'not-recorded';
  return onHold ? 'on-hold' : undefined;
}
