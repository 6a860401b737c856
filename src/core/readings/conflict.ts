/**
 * Two boxes that use one name (contract, section 2): the same boot and seq came with other bytes,
 * or readings of two boots overlap by more than a minute. Both boxes' packs are kept; it is said
 * once, and that it is over once an hour brought no more signs of it.
 */
import { HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import type { BootState } from './boot.ts';
import type { NewsItem } from './news.ts';

/** The contract's: clocks may differ a little from boot to boot. */
const OVERLAP_MS = MINUTE_MS;
/** Long enough for a box that speaks each ten minutes to show itself a few times. */
export const CONFLICT_CLEARS_AFTER_MS = HOUR_MS;

export type ConflictEvidence = Record<string, number | string>;

export interface Conflict {
  sinceMs: number;
  /** Arrival of its last sign. */
  lastMs: number;
}

/**
 * Whether readings of `boot` from `span.fromMs` to `span.toMs` show that it runs beside another
 * one: more than a minute of the two lies over each other by now, and these readings lie among the
 * other's or make it more. What overlapped once and no longer grows is no new sign. One box that
 * restarts with a wrong clock writes its readings over those of its boot before; but that one has
 * measured nothing since this one was first heard.
 */
export function overlappingBoot(
  boots: readonly BootState[],
  boot: BootState,
  span: { fromMs: number; toMs: number },
): ConflictEvidence | undefined {
  const fromMs = Math.min(boot.fromMs ?? span.fromMs, span.fromMs);
  const toMs = Math.max(boot.toMs ?? span.toMs, span.toMs);
  for (const other of boots) {
    if (other === boot || other.fromMs === undefined || other.toMs === undefined) continue;
    const otherSpan = { fromMs: other.fromMs, toMs: other.toMs };
    const overMs = overlapMs({ fromMs, toMs }, otherSpan);
    if (overMs <= OVERLAP_MS || !measuredAfterBothWereHeard({ ...boot, toMs }, other)) continue;
    const before = { fromMs: boot.fromMs ?? 0, toMs: boot.toMs ?? 0 };
    if (overMs > overlapMs(before, otherSpan) || overlapMs(span, otherSpan) >= 0) {
      return { boot: boot.boot, otherBoot: other.boot, overlapS: Math.round(overMs / 1000) };
    }
  }
  return undefined;
}

/** Does the boot that was heard first still measure after the other one was heard? */
function measuredAfterBothWereHeard(one: BootState, other: BootState): boolean {
  const [first, second] = (one.firstHeardMs ?? 0) <= (other.firstHeardMs ?? 0) ? [one, other] : [other, one];
  return (first.toMs ?? 0) > (second.firstHeardMs ?? 0) + OVERLAP_MS;
}

function overlapMs(a: { fromMs: number; toMs: number }, b: { fromMs: number; toMs: number }): number {
  return Math.min(a.toMs, b.toMs) - Math.max(a.fromMs, b.fromMs);
}

/** A sign of conflict came; the first one is news. Returns the conflict that stands. */
export function recordConflict(
  active: Conflict | undefined,
  node: string,
  atMs: number,
  evidence: ConflictEvidence,
  news: NewsItem[],
): Conflict {
  if (active) return { ...active, lastMs: Math.max(active.lastMs, atMs) };
  news.push({ atMs, node: { news: 'conflict', node, sinceMs: atMs, evidence } });
  return { sinceMs: atMs, lastMs: atMs };
}

/** Time goes on to `nowMs`. Returns the conflict that still stands. */
export function advanceConflict(
  active: Conflict | undefined,
  node: string,
  nowMs: number,
  news: NewsItem[],
): Conflict | undefined {
  if (!active || active.lastMs + CONFLICT_CLEARS_AFTER_MS >= nowMs) return active;
  news.push({ atMs: active.lastMs + CONFLICT_CLEARS_AFTER_MS, node: { news: 'conflict-over', node } });
  return undefined;
}

/** When a conflict is over if no more signs of it come; Infinity where none stands. */
export function conflictClearsMs(active: Conflict | undefined): number {
  return active ? active.lastMs + CONFLICT_CLEARS_AFTER_MS : Number.POSITIVE_INFINITY;
}
