/** What people planned of checks on a well: of each check the plan that was written last. */
import type { StoredEntry } from '../entries/entry.ts';
import type { Recurrence } from './due-rules.ts';

export interface CheckPlan {
  /** The entry that says so. */
  id: string;
  createdMs: number;
  title?: string;
  text?: string;
  recurrence?: Recurrence;
  /** ISO date. */
  nextDate?: string;
  off: boolean;
}

/** By check. Entries are those that count. */
export function latestPlans(entries: readonly StoredEntry[]): Map<string, CheckPlan> {
  const plans = new Map<string, CheckPlan>();
  const written = entries
    .filter(({ kind }) => kind === 'check-plan')
    .toSorted((a, b) => a.createdMs - b.createdMs);
  for (const entry of written) {
    const check = entry.body['check'];
    if (typeof check === 'string') plans.set(check, toCheckPlan(entry));
  }
  return plans;
}

function toCheckPlan({ id, createdMs, body }: StoredEntry): CheckPlan {
  const text = (key: string): string | undefined => {
    const value = body[key];
    return typeof value === 'string' ? value : undefined;
  };
  const [title, remark, yearlyOn, nextDate] = ['title', 'text', 'on', 'next'].map(text);
  const days = body['everyDays'];
  const recurrence: Recurrence | undefined =
    typeof days === 'number'
      ? { is: 'days', days }
      : yearlyOn === undefined
        ? undefined
        : { is: 'yearly', day: yearlyOn };
  return {
    id,
    createdMs,
    off: body['off'] === true,
    ...(title !== undefined && { title }),
    ...(remark !== undefined && { text: remark }),
    ...(recurrence && { recurrence }),
    ...(nextDate !== undefined && { nextDate }),
  };
}
