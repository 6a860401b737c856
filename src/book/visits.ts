/** The visits of a well, found in what people did: a visit opens, and closes with the next act that closes one. */
import type { KeptEntry } from './entry.ts';
import { asksNewBaseline, touchedOf, type Touched } from './read-work.ts';

/** An act as the store keeps it, as far as visits need it. */
export interface KeptAct {
  id: string;
  atMs: number;
  by?: string;
  kind: string;
  body: unknown;
}

export interface Visit {
  /** The act that opened it. */
  id: string;
  openedMs: number;
  openedBy?: string;
  /** Absent while it is open. */
  closedMs?: number;
  closedBy?: string;
  newBaseline: boolean;
  /** From when on the well was left alone before it, and until when after it: the neighbouring visits. */
  quietFromMs?: number;
  quietUntilMs?: number;
}

/** Oldest first. What opens a visit that is open already belongs to it; what closes none is passed over. */
export function visitsOf(acts: readonly KeptAct[]): Visit[] {
  const visits: Visit[] = [];
  for (const act of acts.toSorted((a, b) => a.atMs - b.atMs)) {
    const last = visits.at(-1);
    const open = last !== undefined && last.closedMs === undefined;
    if (act.kind === 'visit-opened' && !open) visits.push(opened(act, last));
    if (act.kind === 'visit-closed' && open) close(last, act);
  }
  return visits;
}

function opened(act: KeptAct, last: Visit | undefined): Visit {
  if (last) last.quietUntilMs = act.atMs;
  return {
    id: act.id,
    openedMs: act.atMs,
    ...(act.by !== undefined && { openedBy: act.by }),
    newBaseline: false,
    ...(last?.closedMs !== undefined && { quietFromMs: last.closedMs }),
  };
}

function close(visit: Visit, act: KeptAct): void {
  visit.closedMs = act.atMs;
  if (act.by !== undefined) visit.closedBy = act.by;
  const { body } = act;
  visit.newBaseline =
    typeof body === 'object' && body !== null && 'newBaseline' in body && body.newBaseline === true;
}

/** Work written down in a visit, by its name or by its time; `entries` are those that count. */
export function workOf(visit: Visit, entries: readonly KeptEntry[]): KeptEntry[] {
  const within = ({ atMs }: KeptEntry): boolean =>
    atMs >= visit.openedMs && atMs <= (visit.closedMs ?? Infinity);
  return entries.filter(
    (entry) =>
      entry.kind === 'work' &&
      (entry.body['visit'] === undefined ? within(entry) : entry.body['visit'] === visit.id),
  );
}

/** What the visit's work touched, and whether what was normal before can still be the measure. */
export function touchedIn(work: readonly KeptEntry[]): { touched: Touched[]; newBaseline: boolean } {
  const touched = [...new Set(work.flatMap(({ body }) => touchedOf(body)))];
  return { touched, newBaseline: asksNewBaseline(touched) };
}
