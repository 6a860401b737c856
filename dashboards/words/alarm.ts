/** What the pages say of an alarm and of a cause, from the wording that the whole project shares. */
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import type { AlarmKind, Cause } from '../../shared/words/kinds.ts';

export interface SaidOfAlarm {
  title: string;
  meaning?: string;
  firstStep?: string;
  cautions: readonly string[];
}

export function saidOfAlarm(kind: AlarmKind): SaidOfAlarm {
  return { title: alarmTitle(kind), cautions: [] };
}

export function causeWords(cause: Cause): string {
  return alarmTitle(cause);
}

/** How likely, in words: weights are opinions, and a percentage would promise more than they hold. */
export function likelyWords(weight: number): string {
  if (weight >= 0.6) return 'most likely';
  return weight >= 0.3 ? 'quite possibly' : 'less likely';
}
