import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  clearBuffer,
  bufferReading,
  isOldestDue,
  releaseOldest,
  newDelayBuffer,
  oldestBufferedKpa,
  oldestBufferedMs,
} from '../../../src/core/hydraulics/delay-buffer.ts';

describe('hold', () => {
  test('gives all points back in order, each once, a minute late', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 900, max: 20_000 }), { maxLength: 200 }), (steps) => {
        const held = newDelayBuffer();
        const put: number[] = [];
        const got: number[] = [];
        let atMs = 1_700_000_000_000;
        const take = (): void => {
          got.push(oldestBufferedMs(held));
          releaseOldest(held);
        };
        for (const step of steps) {
          put.push((atMs += step));
          bufferReading(held, atMs, 300);
          while (isOldestDue(held, atMs)) take();
        }
        while (oldestBufferedMs(held) < Infinity) take();
        expect(got).toEqual(put);
      }),
      { seed: 11 },
    );
  });

  test('averages what comes closer than a second', () => {
    const held = newDelayBuffer();
    for (let i = 0; i < 9; i++) bufferReading(held, 1000 + i * 100, 300 + i);
    bufferReading(held, 2000, 400);
    expect(oldestBufferedKpa(held)).toBeCloseTo(304, 9);
    releaseOldest(held);
    expect(oldestBufferedMs(held)).toBe(2000);
    expect(oldestBufferedKpa(held)).toBe(400);
  });

  test('holds nothing once cleared', () => {
    const held = newDelayBuffer();
    bufferReading(held, 1000, 300);
    clearBuffer(held);
    expect(oldestBufferedMs(held)).toBe(Infinity);
    expect(isOldestDue(held, 1e12)).toBe(false);
  });
});
