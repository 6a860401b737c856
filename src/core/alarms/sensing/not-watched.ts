/** A fault of our own stopped the watching of a well. No watch can find that: the engine's keeper says it with these words. */
import type { Finding } from '../scene.ts';

/** @param detail the failed check in one line, as the assertion says it. */
export function notWatchedFinding(sinceMs: number, detail: string): Finding {
  return {
    sinceMs,
    priority: 'now',
    why: 'A fault of our own stopped the watching of this well; its readings are kept and the other wells go on.',
    evidence: { detail: detail.slice(0, 200) },
    causes: [],
  };
}
