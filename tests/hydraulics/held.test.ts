import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  clearHeld,
  hold,
  isDue,
  letGo,
  newHeld,
  oldestHeldKpa,
  oldestHeldMs,
} from '../../src/hydraulics/held.ts';

describe('hold', () => {
  test('gives all points back in order, each once, a minute late', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 900, max: 20_000 }), { maxLength: 200 }), (steps) => {
        const held = newHeld();
        const put: number[] = [];
        const got: number[] = [];
        let atMs = 1_700_000_000_000;
        const take = (): void => {
          got.push(oldestHeldMs(held));
          letGo(held);
        };
        for (const step of steps) {
          put.push((atMs += step));
          hold(held, atMs, 300);
          while (isDue(held, atMs)) take();
        }
        while (oldestHeldMs(held) < Infinity) take();
        expect(got).toEqual(put);
      }),
      { seed: 11 },
    );
  });

  test('averages what comes closer than a second', () => {
    const held = newHeld();
    for (let i = 0; i < 9; i++) hold(held, 1000 + i * 100, 300 + i);
    hold(held, 2000, 400);
    expect(oldestHeldKpa(held)).toBeCloseTo(304, 9);
    letGo(held);
    expect(oldestHeldMs(held)).toBe(2000);
    expect(oldestHeldKpa(held)).toBe(400);
  });

  test('holds nothing once cleared', () => {
    const held = newHeld();
    hold(held, 1000, 300);
    clearHeld(held);
    expect(oldestHeldMs(held)).toBe(Infinity);
    expect(isDue(held, 1e12)).toBe(false);
  });
});
