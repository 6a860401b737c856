/** What people planned of checks on a well: of each check the plan that was written last. */
import type { KeptEntry } from './entry.ts';
import type { Round } from './due-rules.ts';

export interface Plan {
  /** The entry that says so. */
  id: string;
  madeMs: number;
  title?: string;
  text?: string;
  round?: Round;
  /** ISO date. */
  next?: string;
  off: boolean;
}

/** By check. Entries are those that count. */
export function plansOf(entries: readonly KeptEntry[]): Map<string, Plan> {
  const plans = new Map<string, Plan>();
  const written = entries.filter(({ kind }) => kind === 'check-plan').toSorted((a, b) => a.madeMs - b.madeMs);
  for (const entry of written) {
    const check = entry.body['check'];
    if (typeof check === 'string') plans.set(check, planOf(entry));
  }
  return plans;
}

function planOf({ id, madeMs, body }: KeptEntry): Plan {
  const text = (key: string): string | undefined => {
    const value = body[key];
    return typeof value === 'string' ? value : undefined;
  };
  const [title, remark, on, next] = ['title', 'text', 'on', 'next'].map(text);
  const days = body['everyDays'];
  const round: Round | undefined =
    typeof days === 'number' ? { is: 'days', days } : on === undefined ? undefined : { is: 'on', day: on };
  return {
    id,
    madeMs,
    off: body['off'] === true,
    ...(title !== undefined && { title }),
    ...(remark !== undefined && { text: remark }),
    ...(round && { round }),
    ...(next !== undefined && { next }),
  };
}
