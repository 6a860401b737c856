/**
 * The visits of a well, found in what people did: a visit opens, and closes with the next act that
 * closes one.
 */
import { entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';
import { type AffectedPart } from '../../../shared/entries/entry-fields.ts';
import { needsNewBaseline } from '../entries/work.ts';

/** An act as the store keeps it, as far as visits need it. */
export interface StoredAct {
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
  /**
   * From when on the well was left alone before it, and until when after it: the neighbouring
   * visits.
   */
  windowStartMs?: number;
  windowEndMs?: number;
}

/**
 * Oldest first. What opens a visit that is open already belongs to it; what closes none is passed
 * over.
 */
export function visitsOf(acts: readonly StoredAct[]): Visit[] {
  const visits: Visit[] = [];
  for (const act of acts.toSorted((a, b) => a.atMs - b.atMs)) {
    const last = visits.at(-1);
    const open = last !== undefined && last.closedMs === undefined;
    if (act.kind === 'visit-opened' && !open) visits.push(openVisit(act, last));
    if (act.kind === 'visit-closed' && open) closeVisit(last, act);
  }
  return visits;
}

function openVisit(act: StoredAct, last: Visit | undefined): Visit {
  if (last) last.windowEndMs = act.atMs;
  return {
    id: act.id,
    openedMs: act.atMs,
    ...(act.by !== undefined && { openedBy: act.by }),
    newBaseline: false,
    ...(last?.closedMs !== undefined && { windowStartMs: last.closedMs }),
  };
}

function closeVisit(visit: Visit, act: StoredAct): void {
  visit.closedMs = act.atMs;
  if (act.by !== undefined) visit.closedBy = act.by;
  const { body } = act;
  visit.newBaseline =
    typeof body === 'object' && body !== null && 'newBaseline' in body && body.newBaseline === true;
}

/** Work written down in a visit, by its name or by its time; `entries` are those that count. */
export function workInVisit(visit: Visit, entries: readonly Entry[]): EntryOf<'work'>[] {
  const within = (atMs: number): boolean => atMs >= visit.openedMs && atMs <= (visit.closedMs ?? Infinity);
  return entriesOf(entries, 'work').filter(({ atMs, body }) =>
    body.visit === undefined ? within(atMs) : body.visit === visit.id,
  );
}

/** What the visit's work touched, and whether what was normal before can still be the measure. */
export function affectedByWork(work: readonly EntryOf<'work'>[]): {
  affectedParts: AffectedPart[];
  newBaseline: boolean;
} {
  const affectedParts = [...new Set(work.flatMap(({ body }) => body.touched ?? []))];
  return { affectedParts, newBaseline: needsNewBaseline(affectedParts) };
}
