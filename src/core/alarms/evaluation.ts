/**
 * What a watch says when it is asked: its condition holds, it does not, or that cannot be told and
 * because of what. Only the first two change an alarm. A reason is a name with figures; its
 * sentence is made where somebody reads it (shared/text/en/reasons/).
 */
import type { Evidence } from '../../../shared/api/events.ts';
import type { Priority, WeighedCause } from '../../../shared/text/en/alarms/kinds.ts';
import { BECAUSE_TEXT, type Because } from '../../../shared/text/en/reasons/because.ts';
import type { Reason } from '../../../shared/text/en/reasons/reasons.ts';

export type Evaluation = Active | Clear | CannotTell;

export type Active = {
  is: 'active';
  sinceMs: number;
  /** If it differs from the kind's default. */
  priority?: Priority;
  evidence: Evidence;
  /** Heaviest first; may be empty if the alarm is its own explanation. */
  causes: WeighedCause[];
} & Reason;

export interface Clear {
  is: 'clear';
}

export interface CannotTell {
  is: 'cannot-tell';
  because: Because;
}

export const CLEAR: Clear = { is: 'clear' };

/** Made once each: most watches cannot tell in most minutes. */
const CANNOT_TELL = Object.fromEntries(
  Object.keys(BECAUSE_TEXT).map((because) => [because, { is: 'cannot-tell', because }]),
) as Record<Because, CannotTell>;

export function cannotTell(because: Because): CannotTell {
  return CANNOT_TELL[because];
}
