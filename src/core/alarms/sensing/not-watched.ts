/**
 * A fault of our own stopped the watching of a well. No watch can find that: the engine's keeper
 * says it with these words.
 */
import type { Active } from '../evaluation.ts';

/** @param detail the failed check in one line, as the assertion says it. */
export function notWatchedEvaluation(sinceMs: number, detail: string): Active {
  return {
    is: 'active',
    sinceMs,
    priority: 'now',
    reason: 'watching-stopped',
    figures: {},
    evidence: { detail: detail.slice(0, 200) },
    causes: [],
  };
}
