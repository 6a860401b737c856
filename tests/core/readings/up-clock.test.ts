import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { updateUpClock, type UpClock } from '../../../src/core/readings/up-clock.ts';
import { NOON } from '../../support/packs.ts';

test('seeUp: the first message says when the boot began', () => {
  expect(updateUpClock(undefined, 60_000, NOON).anchorMs).toBe(NOON - 60_000);
});

test('seeUp: a backlog does not move it', () => {
  let clock = updateUpClock(undefined, 2_000, NOON);
  const { anchorMs } = clock;
  for (let upMs = 60_000; upMs < 6 * 3_600_000; upMs += 60_000) {
    clock = updateUpClock(clock, upMs, NOON + 6 * 3_600_000 + upMs / 1000);
  }
  expect(clock.anchorMs).toBe(anchorMs);
});

test('seeUp: an earlier edge moves it at once, however it was found', () => {
  const late = updateUpClock(undefined, 2_000, NOON + 40_000);
  expect(updateUpClock(late, 62_000, NOON + 60_000).anchorMs).toBe(NOON - 2_000);
});

/**
 * A node whose crystal is off, over a link that delays; now and then cut off for hours, sending
 * what it kept oldest first.
 */
const life = fc.record({
  ppm: fc.integer({ min: -90, max: 90 }),
  delays: fc.array(fc.integer({ min: 50, max: 900 }), { minLength: 50, maxLength: 50 }),
  outageAt: fc.integer({ min: 200, max: 2000 }),
  outageN: fc.integer({ min: 0, max: 600 }),
});

test('seeUp: with drift, delay and outages the times stay within 1.5 s of the truth, and move seldom', () => {
  fc.assert(
    fc.property(life, ({ ppm, delays, outageAt, outageN }) => {
      const trueMs = (upMs: number): number => NOON + upMs / (1 + ppm * 1e-6);
      let clock: UpClock = updateUpClock(undefined, 2_000, trueMs(2_000) + 100);
      let moves = 0;
      let waiting: number[] = [];
      for (let n = 1; n <= 3000; n++) {
        const upMs = n * 60_000;
        waiting.push(upMs);
        if (n >= outageAt && n < outageAt + outageN) continue;
        if (waiting.length > 1) clock = updateUpClock(clock, upMs, trueMs(upMs) + 100); // It says hello first.
        for (const [i, packMs] of waiting.entries()) {
          const before = clock.anchorMs;
          clock = updateUpClock(clock, packMs, trueMs(upMs) + delays[n % 50]! + i * 40);
          if (clock.anchorMs !== before) moves++;
          // What lay in the outage is placed by the clock after it: the drift of ten hours at 90
          // ppm is 3.3 s.
          const slackMs = 1_500 + (waiting.length > 1 ? 3_300 : 0);
          expect(Math.abs(clock.anchorMs + packMs - trueMs(packMs))).toBeLessThan(slackMs);
        }
        waiting = [];
      }
      // 3,000 min at 90 ppm are 16 s: a step each half second, and a few at the start.
      expect(moves).toBeLessThan(45);
    }),
    { seed: 5, numRuns: 60 },
  );
});
