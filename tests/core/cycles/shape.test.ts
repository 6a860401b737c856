import { describe, expect, it } from 'vitest';
import { finishShape, newShape, addToShape } from '../../../src/core/cycles/shape.ts';

function shapeOf(
  everyS: number,
  n: number,
  sampling: { periodS: number; holds: boolean },
): ReturnType<typeof finishShape> {
  const shape = newShape();
  for (let i = 0; i < n; i++) {
    addToShape(shape, 'amps', i * everyS * 1000, 8);
    addToShape(shape, 'kpa', i * everyS * 1000, 280 + i * everyS);
  }
  return finishShape(shape, { ...sampling, ranS: everyS * n });
}

describe('finishShape', () => {
  it('keeps a short run second by second', () => {
    const shape = shapeOf(1, 20, { periodS: 1, holds: false });
    expect(shape.everyS).toBe(1);
    expect(shape.kpa).toEqual(Array.from({ length: 20 }, (_, i) => 280 + i));
  });

  it('takes a run of any length in 40 steps', () => {
    const shape = shapeOf(1, 3600, { periodS: 1, holds: false });
    expect(shape.everyS).toBe(128);
    expect(shape.amps.length).toBeLessThanOrEqual(40);
    expect(shape.amps.every((a) => a === 8)).toBe(true);
  });

  it('leaves no holes at 5 s', () => {
    const shape = shapeOf(5, 16, { periodS: 5, holds: false });
    expect(shape.everyS).toBe(8);
    expect(shape.kpa).not.toContain(null);
  });

  it('lets a value by exception stand until the next', () => {
    const shape = newShape();
    addToShape(shape, 'amps', 0, 8);
    addToShape(shape, 'amps', 6000, 7);
    expect(finishShape(shape, { periodS: 0, holds: true, ranS: 7 }).amps).toEqual([8, 8, 8, 8, 8, 8, 7]);
  });

  it('holds the last reading of a wide step, not its mean with the inrush', () => {
    const shape = newShape();
    addToShape(shape, 'amps', 0, 28);
    addToShape(shape, 'amps', 1000, 7.5);
    for (let s = 0; s <= 60; s++) addToShape(shape, 'kpa', s * 1000, 280 + s);
    const { everyS, amps } = finishShape(shape, { periodS: 0, holds: true, ranS: 60 });
    expect(everyS).toBe(2);
    expect(amps.slice(1)).toEqual(Array.from({ length: 29 }, () => 7.5));
  });

  it('leaves out what came after the stop', () => {
    const shape = newShape();
    for (let s = 0; s < 12; s++) addToShape(shape, 'amps', s * 1000, s < 10 ? 8 : 0);
    expect(finishShape(shape, { periodS: 1, holds: false, ranS: 10 }).amps).toEqual(
      Array.from({ length: 10 }, () => 8),
    );
  });
});
