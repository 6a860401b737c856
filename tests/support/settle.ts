/**
 * For tests that hold the timers: lets a live server finish all that came, also where its store
 * takes its time.
 */
import { vi } from 'vitest';
import type { LiveServer } from '../../src/server/live/server.ts';

/** As it is before a test takes the timers into its hands. */
const { setImmediate } = globalThis;

/**
 * Turns wait for a timer of the test's, and the store for one of its own: both go on until nothing
 * is left.
 */
export async function settle(live: Pick<LiveServer, 'drained'>): Promise<void> {
  const state = { drained: false };
  const drained = live.drained().then(() => (state.drained = true));
  while (!state.drained) {
    await vi.advanceTimersByTimeAsync(1);
    if (!state.drained) await new Promise((resolve) => setImmediate(resolve));
  }
  await drained;
}
