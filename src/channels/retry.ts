/**
 * When a notice that did not go is tried again: after 15 s, 30 s, 1 min … 1 h, each up to a fifth
 * earlier or later at random so that a relay that comes back is not met by all at once; 30 tries,
 * about a day in all, then it is given up and shown as such.
 */
import { HOUR_MS } from '../../shared/units/duration.ts';
const FIRST_WAIT_MS = 15_000;
const MAX_WAIT_MS = HOUR_MS;
const JITTER_RATIO = 0.2;
/**
 * 15 s doubled nine times reaches the hour after 2 h 8 min in all; 21 hours more make about a day.
 */
export const MAX_TRIES = 30;

/**
 * Wait before the next try, after `tries` that failed; undefined where it is given up. `random` in
 * [0, 1).
 */
export function retryDelayMs(tries: number, random: number): number | undefined {
  if (tries >= MAX_TRIES) return undefined;
  const wait = Math.min(MAX_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(tries - 1, 20));
  return Math.round(wait * (1 - JITTER_RATIO + 2 * JITTER_RATIO * random));
}
