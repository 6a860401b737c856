/** How late the event loop comes, counted: what it says after calm and after a stall. */
import { describe, expect, test } from 'vitest';
import {
  DELAY_BOUNDS_S,
  isBusy,
  newDelayCounter,
  watchLoopDelay,
  type DelayCounter,
} from '../../src/server/loop-delay.ts';

const MINUTE_MS = 60_000;

/** Asked every 50 ms for so many minutes, each time this late. */
function calm(counter: DelayCounter, minutes: number, fromMs = 0): void {
  for (let tMs = 0; tMs < minutes * MINUTE_MS; tMs += 50) counter.add(0.4, fromMs + tMs);
}

describe('delays of the loop', () => {
  test('nothing is known before it was asked', () => {
    const counter = newDelayCounter();
    expect(counter.recent(0)).toBeUndefined();
    expect(isBusy(counter.recent(0))).toBe(false);
  });

  test('a stall counts with every moment that it held up', () => {
    const counter = newDelayCounter();
    calm(counter, 1);
    counter.add(4000, MINUTE_MS + 4000);
    const { cumulative, boundsS, sumS } = counter.histogram();
    const within = (s: number): number => cumulative[boundsS.indexOf(s)] ?? Number.NaN;
    // 4,000, 3,950 … 0 ms: 81 moments, of which 21 waited for a second at most.
    expect(cumulative.at(-1)).toBe(1200 + 81);
    expect(within(1)).toBe(1200 + 21);
    expect(within(5)).toBe(1200 + 81);
    expect(sumS).toBeCloseTo(1200 * 0.0004 + (81 * 2000) / 1000, 6);
  });

  test('four seconds of ten minutes are no busy server; half a minute is', () => {
    const counter = newDelayCounter();
    calm(counter, 10);
    counter.add(4000, 10 * MINUTE_MS);
    expect(counter.recent(10 * MINUTE_MS)).toEqual({ minutes: 10, halfMs: 5, p99Ms: 5, maxMs: 4000 });
    expect(isBusy(counter.recent(10 * MINUTE_MS))).toBe(false);
    counter.add(30_000, 10 * MINUTE_MS + 30_000);
    expect(isBusy(counter.recent(10 * MINUTE_MS + 30_000))).toBe(true);
  });

  test('ten minutes later it is forgotten, but not by the histogram', () => {
    const counter = newDelayCounter();
    counter.add(30_000, 30_000);
    calm(counter, 10, MINUTE_MS);
    expect(counter.recent(11 * MINUTE_MS)).toMatchObject({ maxMs: 0.4 });
    expect(counter.histogram().cumulative.at(-1)).toBe(601 + 12_000);
  });

  test('longer than the last bound stands in the last class', () => {
    const counter = newDelayCounter();
    counter.add(10_010, 0);
    const { cumulative } = counter.histogram();
    expect(cumulative).toHaveLength(DELAY_BOUNDS_S.length + 1);
    expect((cumulative.at(-1) ?? 0) - (cumulative.at(-2) ?? 0)).toBe(1);
  });

  test('the loop itself is asked: a stall of this thread is seen', async () => {
    const delay = watchLoopDelay();
    try {
      await new Promise((done) => setTimeout(done, 1));
      const untilMs = performance.now() + 300;
      while (performance.now() < untilMs);
      await new Promise((done) => setTimeout(done, 60));
      expect(delay.recent()?.maxMs).toBeGreaterThan(200);
    } finally {
      delay.close();
    }
  });
});
