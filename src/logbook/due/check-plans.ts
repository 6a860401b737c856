/** What people planned of checks on a well: of each check the plan that was written last. */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import { entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';
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
export function latestPlans(entries: readonly Entry[]): Map<string, CheckPlan> {
  const plans = new Map<string, CheckPlan>();
  const written = entriesOf(entries, 'check-plan').toSorted((a, b) => a.createdMs - b.createdMs);
  for (const entry of written) plans.set(entry.body.check, toCheckPlan(entry));
  return plans;
}

function toCheckPlan({ id, createdMs, body }: EntryOf<'check-plan'>): CheckPlan {
  const { title, text, on, next, everyDays, off } = body;
  const recurrence: Recurrence | undefined =
    everyDays !== undefined
      ? { is: 'days', days: everyDays }
      : on === undefined
        ? undefined
        : { is: 'yearly', day: on };
  return omitUndefined({ id, createdMs, off: off === true, title, text, recurrence, nextDate: next });
}
