/**
 * When a boot began, for a node that has no clock and says how long it has been up. A message can't
 * arrive before it was sent, so (arrival - uptime) is never under the true start of the boot, and
 * the lower edge of what was seen is the best guess. The node's crystal may be off by 100 ppm
 * (contract, section 2), so an old edge counts for less by 100 us in each second. What was found is
 * held still until it is plainly wrong: steps of a few ms with each pack would spoil the periods.
 */

/** The contract's allowance for a node's crystal. */
const MAX_DRIFT = 100e-6;
/**
 * The anchor stays while the edge is within this of it: the jitter of a radio link is less, and
 * half a second shows in no period.
 */
const ANCHOR_TOLERANCE_MS = 500;
/**
 * The anchor moves later only on a pack that came at once; one that waited in a backlog says
 * nothing of drift.
 */
const PROMPT_ARRIVAL_MS = 10_000;

export interface UpClock {
  /** Uptime 0 as Unix ms, whole: what times are reckoned from. */
  anchorMs: number;
  /** The lower edge of (arrival - uptime) … */
  edgeMs: number;
  /** … as it was seen at this uptime. */
  edgeUpMs: number;
}

/**
 * The clock after it was seen that at `arrivalMs` or before it the node had been up for `upMs`.
 * Does not change `clock`.
 */
export function updateUpClock(clock: UpClock | undefined, upMs: number, arrivalMs: number): UpClock {
  const seenMs = arrivalMs - upMs;
  if (!clock) return { anchorMs: Math.round(seenMs), edgeMs: seenMs, edgeUpMs: upMs };
  const edgeUpMs = Math.max(clock.edgeUpMs, upMs);
  const oldEdgeMs = clock.edgeMs + MAX_DRIFT * (edgeUpMs - clock.edgeUpMs);
  const newEdgeMs = seenMs + MAX_DRIFT * (edgeUpMs - upMs);
  const edgeMs = Math.min(oldEdgeMs, newEdgeMs);
  const early = edgeMs < clock.anchorMs - ANCHOR_TOLERANCE_MS;
  const late = edgeMs > clock.anchorMs + ANCHOR_TOLERANCE_MS && newEdgeMs <= edgeMs + PROMPT_ARRIVAL_MS;
  return { anchorMs: early || late ? Math.round(edgeMs) : clock.anchorMs, edgeMs, edgeUpMs };
}
