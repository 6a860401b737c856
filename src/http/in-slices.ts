/**
 * Long answers in slices: an answer about thousands of wells gives way to readings, alarms and
 * other answers every few milliseconds.
 */
import { setImmediate } from 'node:timers/promises';

/** A slice takes no longer than the reading of a few packs. Common practice, no source. */
const SLICE_MS = 5;

/** What `work` makes of each item, in their order. Rejects with the first that fails. */
export async function mapInSlices<T, R>(
  items: readonly T[],
  work: (item: T) => R | Promise<R>,
): Promise<R[]> {
  const made: R[] = [];
  let sliceEndMs = performance.now() + SLICE_MS;
  for (const item of items) {
    made.push(await work(item));
    if (performance.now() < sliceEndMs) continue;
    await setImmediate();
    sliceEndMs = performance.now() + SLICE_MS;
  }
  return made;
}
